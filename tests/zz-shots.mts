import { chromium } from 'playwright-core';
const base = 'http://127.0.0.1:8099';
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--headless=new', '--disable-gpu', '--hide-scrollbars'] });
const views = process.argv[2]!.split(',');
const sizes: Record<string, [number, number]> = { desk: [1440, 900], phone: [390, 844], wall: [1920, 1080], panel: [1280, 800], tablet: [1024, 768], paper: [1032, 703] };
const paths: Record<string, string> = { stations: '/stations', station: '/stations/bottom-major', stops: '/stops', safety: '/safety-stops', changeovers: '/changeovers', signals: '/signals', line: '/' };
for (const view of views) {
  const [name, size = 'desk', theme = 'light', media = 'screen'] = view.split(':');
  const [w, h] = sizes[size]!;
  const page = await browser.newPage({ viewport: { width: w, height: h } });
  page.on('console', (m) => { if (m.type() === 'error') console.log(view, m.text()); });
  page.on('pageerror', (e) => console.log(view, String(e)));
  if (media === 'print') await page.emulateMedia({ media: 'print' });
  await page.goto(`${base}${paths[name!] ?? name}?theme=${theme}`);
  await page.waitForTimeout(3500);
  const over = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth, document.documentElement.scrollHeight]);
  console.log(view, over.join(' '));
  await page.screenshot({ path: `/tmp/shots/${view.replaceAll(':', '-').replaceAll('/', '_')}.png`, fullPage: process.env.TOP === undefined });
  await page.close();
}
await browser.close();
