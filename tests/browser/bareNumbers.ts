import type { Page } from 'playwright-core';

/** Numbers that are no figures, by where they stand and why. */
export const NO_FIGURES: readonly (readonly [selector: string, why: string])[] = [
  ['select, output, input', 'what is chosen or typed'],
  ['button:not([data-figure]), a, summary', 'a key or a way, which does what it says'],
  ['.stripover:not(.stripneeded) text:not([class]), .stripover text[class=""]', 'the station of a stop'],
  ['.stripover text.onAbnormal', 'the station of a stop'],
  ['.stripover text.ink2, .stripover text.ink', 'hours, and the zero of the scale'],
  ['.board .pip + text', 'the station of a stop'],
  ['.curves text.ink2, .clockscale text', 'a scale'],
  ['.ticks, .celldates', 'a scale of time'],
  ['.all ol li span:nth-child(2)', 'the station of a stop, before its name'],
  ['.what b, .placegrid .at, .past h1', 'a station, by its number and name'],
  ['.changeoverstrip .second', 'the station of a stop, after its name'],
  ['td.nth', 'which of the stops it is'],
  ['td.cartons', 'the number of an order'],
  ['.choose label', 'the number of an order, in a question'],
  ['.ask', 'what was typed, asked about once more'],
  ['details td:first-child', 'a scale of time'],
  ['.found, .told, .comes, .steps p', 'the number of an order, or to call'],
  ['.shownold', 'how long nobody has answered'],
  ['.rest, .more', 'how many more there are in a list'],
  ['.notices h2, .matters h2, .matters > .second', 'how many there are in the list below it'],
  ['.safetyuses .foot, .stoplist .foot, .changeoverlist .foot', 'how much of a list is shown'],
  ['.signalsheets .foot, .server small', 'what was asked of a server, and a limit'],
  ['.exports', 'how far a file is that is being made, and of which time'],
  ['.trend h2, .trend caption, .trend .second, .trend .foot', 'how a batch is made, and how much is drawn'],
  ['.ownnormal .foot', 'how it was measured'],
  [
    '.explains .second, .explains .says, .explains .causes',
    'what was read and counted, in sentences that say so',
  ],
  ['.movedtabs text', 'an adjustment, by its number'],
  ['.changednumbers .second, .changednumbers .foot, .tobook li', 'adjustments by their numbers'],
  ['.donelist .foot', 'how it is judged'],
  ['.daymarks text', 'a scale of time'],
  ['.saidlist li, .saidlist .foot', 'what somebody entered, and how much of a list is shown'],
  ['.trendchart text, .recharts-cartesian-axis text, .scale1 text', 'a scale'],
  ['.adjustments th, .setpaper th.no, .together1', 'the number and name of an adjustment'],
  ['.bookstation b, .paperstation b', 'a station, by its number and name'],
  ['.book th small, .facts1 dd small, .setpaper .named small', 'which datum its numbers have'],
  ['.learnedfrom, .named1', 'the name of a lot, or of parts'],
  ['.costchart text', 'a scale'],
  ['.book .foot', 'how it was measured'],
  ['.approvals1 li, .datums1 li', 'what somebody entered'],
  ['.doubted1', 'what was typed, asked about once more'],
  ['.setpaper footer', 'the version of the model'],
  ['th.noprint', 'what a key shows'],
  ['.aroundaxis, .around .second', 'a scale of time'],
  ['.stephead, .sheettop', 'an adjustment or a station, by its number and name'],
  ['.sheettitle, .toall, .allsteps h2', 'how far along a sheet is'],
  ['.stepway, .sheetscale text', 'how far to turn, on a scale'],
  ['.stepsaid, .sheetnote, .steptold, .fittedhere', 'what somebody entered, or the name of a part'],
  ['.sheetasks, .keptbar, .refusedhere', 'what was typed, asked about once more, and how much is kept here'],
  ['.threenumbers dt', 'names, and when it was'],
  ['.address, .fingerprint', 'an address, a fingerprint'],
  ['.wallhead text.bold, header.top', 'names'],
];

/** Parts of a text that are no figures wherever they stand: clock times, dates, names, the numbers of orders. */
const NAMES: readonly (readonly [pattern: string, why: string])[] = [
  ['\\d{1,2}:\\d{2}(:\\d{2}(\\.\\d)?)?', 'a clock time'],
  ['\\d{1,2} (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)', 'a date'],
  ['(Sachet|Sampler|Line|guard door|Verpackungslinie|Großpackung|Doppelkammer\\S*) \\d+', 'a name'],
  ['(Order |order )?\\b44\\d\\d\\b', 'the number of an order of the views'],
  ['tap \\d of 2', 'how far along a question is'],
  ['SHA-256', 'a name'],
  ['\\b\\d{1,2}\\.\\d (bottom|top|tuck|plough|kicker|chain|pick|opening|magazine)\\b', 'an adjustment'],
  ['moved with \\d{1,2}\\.\\d', 'an adjustment'],
  ['\\b\\d{1,2} (magazine|pick|open|bottom|capture|loading|top|tuck|discharge)\\b', 'a station'],
];

/** A number that a reader sees and that nobody can ask about, with where it stands. */
export async function bareNumbers(page: Page): Promise<readonly string[]> {
  return page.evaluate(
    ({ selectors, patterns }) => {
      const places = [...document.querySelectorAll('.figureplace')].map((one) => one.getBoundingClientRect());
      const walker = document.createTreeWalker(document.querySelector('#root')!, NodeFilter.SHOW_TEXT);
      const bare: string[] = [];
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const at = node.parentElement;
        const text = node.nodeValue ?? '';
        if (at === null || at.closest('dialog, script, style, .unseen, title, symbol, [data-figure]'))
          continue;
        const clear = patterns.reduce(
          (left, pattern) => left.replace(new RegExp(pattern, 'gi'), (name) => ' '.repeat(name.length)),
          text,
        );
        for (const { index, 0: number } of clear.matchAll(/\d[\d,.]*/g)) {
          const range = document.createRange();
          range.setStart(node, index);
          range.setEnd(node, index + number.length);
          const [box] = range.getClientRects();
          if (box === undefined || box.width === 0) continue;
          const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
          if (places.some((one) => x > one.left && x < one.right && y > one.top && y < one.bottom)) continue;
          const cell = at.closest('td');
          const wide = [...(cell?.closest('tr')?.cells ?? [])]
            .slice(0, cell?.cellIndex)
            .reduce((sum, { colSpan }) => sum + colSpan, 0);
          const column = cell?.closest('table')?.tHead?.rows[0]?.cells[wide];
          if (cell?.colSpan === 1 && column?.querySelector('[data-figure]')) continue;
          if (cell?.closest('tr')?.querySelector('th [data-figure]')) continue;
          if (at.closest(selectors.join(', '))) continue;
          const parent = at.parentElement;
          bare.push(
            `“${text.trim()}” in ${parent?.localName ?? ''}.${parent?.getAttribute('class') ?? ''} ${at.localName}.${at.getAttribute('class') ?? ''}`,
          );
        }
      }
      return [...new Set(bare)];
    },
    { selectors: NO_FIGURES.map(([selector]) => selector), patterns: NAMES.map(([pattern]) => pattern) },
  );
}
