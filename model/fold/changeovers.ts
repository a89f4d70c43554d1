import { lotNow } from './fitted.ts';
import { between, type Instant, minutes } from '../units/units.ts';
import { changeBase } from './account.ts';
import { sizeMoved } from './attributing.ts';
import { runEnds } from './settings.ts';
import { sheetAtRate, sheetFor } from './sheet.ts';
import type { ChangeoverRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { beginStop, endStop, openStop, postOpenPause } from './stops.ts';
import { targetTenths } from './target.ts';

/** Finished changeovers kept to say what one usually takes. */
export const CHANGEOVERS_KEPT = 60;

/** [CH1] A changeover begins; one that is not over ends where the next begins. */
export function beginChangeover(stepping: Stepping, at: Instant): void {
  const { state, index } = stepping;
  runEnds(stepping);
  state.creeps = [];
  if (state.changeover) finish(stepping, state.changeover, at);
  const order = state.orders.find((candidate) => candidate.number === state.order);
  state.changeover = {
    kind: state.size === null ? 'startUp' : 'artwork',
    begin: at,
    from: state.size,
    to: state.size,
    fromBlend: order?.blend ?? null,
    trialBegan: null,
    productionBack: null,
    firstGood: null,
    atRate: null,
    end: null,
    trialCartons: 0,
  };
  state.goodsInRunUp = [];
  changeBase(state.shift.account, at, index.changeoverKey);
  stepping.emit({ kind: 'ChangeoverBegan', at, changeover: state.changeover });
}

/** The open stop turns out to be, or turns into, a changeover. */
export function stopIsChangeover(stepping: Stepping, at: Instant): void {
  const stop = openStop(stepping);
  if (!stop || stop.class === 'changeover') return;
  const wasUnexplained = stop.kind === null || stop.kind === 'operator' || stop.kind === 'changeover';
  if (wasUnexplained) {
    stop.class = 'changeover';
    stepping.emit({ kind: 'StopExplained', at, stop });
    beginChangeover(stepping, stop.begin);
    return;
  }
  endStop(stepping, at, false);
  postOpenPause(stepping);
  const next = beginStop(stepping, at, stop.from);
  next.class = 'changeover';
  stepping.emit({ kind: 'StopExplained', at, stop: next });
  beginChangeover(stepping, at);
}

/** From here on cartons are of this size. */
export function beginSize({ state, emit }: Stepping, size: string, at: Instant): void {
  state.size = size;
  const { sheet } = state;
  state.setSince = sheet && sheet.ended === null && sheet.size === size ? sheet.begin : at;
  const name = lotNow(state);
  const lot = name === null ? {} : { lot: name };
  emit({ kind: 'SizeBegan', at, size, tally: state.tally.slice(), ...lot });
}

/** [CH1] The size changed from one to another. */
export function sizeChanged(stepping: Stepping, to: string, at: Instant): void {
  const { state } = stepping;
  const from = state.size;
  if (openStop(stepping)) stopIsChangeover(stepping, at);
  if (!state.changeover || (state.changeover.productionBack !== null && !openStop(stepping))) {
    beginChangeover(stepping, at);
    if (state.producing) state.changeover!.productionBack = at;
  }
  const changeover = state.changeover!;
  beginSize(stepping, to, at);
  sizeMoved(stepping);
  changeover.to = to;
  if (changeover.from === null) changeover.from = from;
  changeover.kind = changeover.from === null ? 'startUp' : changeover.from === to ? 'artwork' : 'size';
  sheetFor(stepping, changeover, at);
  for (const station of state.stations) {
    station.rejectedAt = [];
    station.outSince = null;
  }
  state.runCartons = 0;
}

/** Production is back after the setting: the run-up begins. True where it came back just now. */
export function changeoverProduces(stepping: Stepping, at: Instant): boolean {
  const changeover = stepping.state.changeover;
  if (!changeover || changeover.productionBack !== null) return false;
  changeover.productionBack = at;
  return true;
}

/** [CH2] At rate with the good carton that completes the wanted number within the wanted minutes. */
export function goodInRunUp(stepping: Stepping, cartons: number, at: Instant): void {
  const { state, index } = stepping;
  const changeover = state.changeover;
  if (!changeover || changeover.productionBack === null) return;
  if (changeover.firstGood === null) changeover.firstGood = at;
  const { atRateMinutes, atRateShare } = index.line.settings;
  const wanted = Math.ceil((atRateShare * targetTenths(stepping) * atRateMinutes) / 10 - 1e-9);
  if (wanted <= 0) return;
  const goods = state.goodsInRunUp;
  for (let n = 0; n < Math.min(cartons, wanted); n += 1) goods.push(at);
  if (goods.length > wanted) goods.splice(0, goods.length - wanted);
  if (goods.length < wanted || between(goods[0]!, at) > minutes(atRateMinutes)) return;
  changeover.atRate = at;
  finish(stepping, changeover, at);
  state.changeover = null;
  sheetAtRate(stepping, changeover, at);
  state.goodsInRunUp = [];
  changeBase(state.shift.account, at, index.slowKey);
}

function finish(stepping: Stepping, changeover: ChangeoverRecord, at: Instant): void {
  const { state } = stepping;
  changeover.end = at;
  state.lastChangeover = changeover;
  if (changeover.atRate !== null) {
    const { kind, from, to } = changeover;
    state.changeovers.push({ kind, from, to, lasted: between(changeover.begin, at) });
    if (state.changeovers.length > CHANGEOVERS_KEPT) state.changeovers.shift();
  }
  stepping.emit({ kind: 'ChangeoverEnded', at, changeover });
}
