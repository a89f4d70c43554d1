import type { LineView } from '../../../model/view/view.ts';

/** Three buttons and three doors, all at rest. */
export const devices: LineView['devices'] = {
  devices: [
    {
      id: 'main-panel',
      name: 'main panel',
      side: 'front',
      station: undefined,
      position: undefined,
      reads: 'released',
      uncertain: false,
      hasTwin: true,
      candidates: [],
    },
    {
      id: 'loading-front',
      name: 'loading front',
      side: 'front',
      station: 'loading',
      position: 'front',
      reads: 'released',
      uncertain: false,
      hasTwin: true,
      candidates: [],
    },
    {
      id: 'loading-back',
      name: 'loading back',
      side: 'back',
      station: 'loading',
      position: 'back',
      reads: 'released',
      uncertain: false,
      hasTwin: true,
      candidates: [],
    },
  ],
  guards: [
    {
      id: 'door-1',
      name: 'guard door 1',
      side: 'back',
      from: 'pick',
      to: 'bottom-minor',
      reads: 'closed',
      uncertain: false,
    },
    {
      id: 'door-2',
      name: 'guard door 2',
      side: 'back',
      from: 'bottom-major',
      to: 'capture',
      reads: 'closed',
      uncertain: false,
    },
    {
      id: 'door-3',
      name: 'guard door 3',
      side: 'back',
      from: 'top-minor',
      to: 'tuck-cam',
      reads: 'closed',
      uncertain: false,
    },
  ],
};

/** The two loading positions, each with its own last hundred pockets. */
export const loading: LineView['loading'] = [
  {
    id: 'front',
    name: 'loading front',
    side: 'front',
    notLoadedThisShift: 27,
    last: Array.from({ length: 100 }, (_, i) => i === 18 || i === 63),
  },
  {
    id: 'back',
    name: 'loading back',
    side: 'back',
    notLoadedThisShift: 34,
    last: Array.from({ length: 100 }, (_, i) => i === 40),
  },
];
