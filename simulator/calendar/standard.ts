import type { PlantCalendar } from './windows.ts';

export const standardZone = 'Europe/Berlin';

const everyDay = [1, 2, 3, 4, 5, 6, 7];

/** Three shifts a day, each with a break and a pause, as the bundled line file has them. */
export const standardCalendar: PlantCalendar = {
  shifts: [
    { id: 'early', from: '06:00', to: '14:00', days: everyDay },
    { id: 'late', from: '14:00', to: '22:00', days: everyDay },
    { id: 'night', from: '22:00', to: '06:00', days: everyDay },
  ],
  pauses: [
    { id: 'early-break', shift: 'early', from: '09:00', to: '10:30', allowanceMinutes: 20 },
    { id: 'early-pause', shift: 'early', from: '11:45', to: '12:45', allowanceMinutes: 10 },
    { id: 'late-break', shift: 'late', from: '17:00', to: '18:30', allowanceMinutes: 20 },
    { id: 'late-pause', shift: 'late', from: '19:45', to: '20:45', allowanceMinutes: 10 },
    { id: 'night-break', shift: 'night', from: '01:00', to: '02:30', allowanceMinutes: 20 },
    { id: 'night-pause', shift: 'night', from: '03:45', to: '04:45', allowanceMinutes: 10 },
  ],
};
