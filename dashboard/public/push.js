/**
 * Shows notices that come by push, also while no page is open, and leads to theirs. It keeps nothing and answers for no
 * page: screens are always asked of the gateway. Its sentences come with the notice.
 */
self.addEventListener('push', (event) => {
  event.waitUntil(show(event.data));
});

self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  event.waitUntil(open(new URL(event.notification.data.open, self.location.origin)));
});

/** A notice that comes again takes the place of the one that is shown: `tag` is the same each time. */
function show(data) {
  const { id, title, body, open: page, level } = data.json();
  return self.registration.showNotification(title, {
    body,
    tag: id,
    data: { open: page },
    icon: '/icon.svg',
    requireInteraction: level === 'urgent',
  });
}

/** A page of this site that is open already goes there; nothing leads to another site. */
async function open(address) {
  if (address.origin !== self.location.origin) return;
  const pages = await self.clients.matchAll({ type: 'window' });
  const there = pages.find(({ url }) => url === address.href);
  await (there ? there.focus() : self.clients.openWindow(address.href));
}
