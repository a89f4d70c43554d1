import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { opc30050, opc30060, type PackmlState } from '../../model/packml/packml.ts';
import { mayBeSeenAfter, transitions } from '../../model/packml/transitions.ts';

/** The official node set of OPC 30050, version 1.01 of 2020-10-08, as node-opcua ships it. */
const require = createRequire(import.meta.url);
const folder = dirname(require.resolve('node-opcua-nodesets/package.json'));
const nodes = readFileSync(join(folder, 'nodesets/Opc.Ua.PackML.NodeSet2.xml'), 'utf8');

/** Names of state machines that stand for several states. */
const parents = new Set(['Running', 'Cleared']);

function stateNumbers(): Map<string, number> {
  const names = new Map<string, string>();
  for (const [, id, name] of nodes.matchAll(/<UAObject NodeId="([^"]+)" BrowseName="\d+:([A-Za-z]+)"/g))
    names.set(id!, name!);
  const numbers = new Map<string, number>();
  const variable =
    /<UAVariable NodeId="[^"]+" BrowseName="StateNumber" ParentNodeId="([^"]+)"[\s\S]*?<(?:uax:)?UInt32[^>]*>(\d+)</g;
  for (const [, parent, number] of nodes.matchAll(variable))
    numbers.set(names.get(parent!) ?? '', Number(number));
  return numbers;
}

function namedMoves(): [string, string][] {
  return [...nodes.matchAll(/<UAObject NodeId="[^"]+" BrowseName="\d+:([A-Z][a-z]+)To([A-Z][a-z]+)"/g)].map(
    ([, from, to]) => [from!, to!],
  );
}

describe('PackML, against the node set of OPC 30050', () => {
  it('has its numbers for every state', () => {
    const numbers = stateNumbers();
    expect(numbers.size).toBeGreaterThanOrEqual(17);
    for (const [number, state] of opc30050) expect([state, numbers.get(state)]).toEqual([state, number]);
    for (const name of numbers.keys()) if (!parents.has(name)) expect([...opc30050.values()]).toContain(name);
  });

  it('has every transition the node set names, and no other', () => {
    const named = namedMoves();
    expect(named.length).toBeGreaterThanOrEqual(25);
    const plain = named
      .filter(([from, to]) => !parents.has(from) && !parents.has(to))
      .map(([from, to]) => `${from} ${to}`);
    const ours = transitions.map(([from, to]) => `${from} ${to}`);
    for (const move of plain) expect(ours).toContain(move);
    const parental = [/ Stopping$/, / Aborting$/, /^Aborted Clearing$/, /^Stopped Resetting$/];
    for (const move of ours)
      expect(plain.includes(move) || parental.some((shape) => shape.test(move))).toBe(true);
    const ofParents = named
      .filter(([from, to]) => parents.has(from) || parents.has(to))
      .map(([from, to]) => `${from} ${to}`);
    expect(ofParents.sort()).toEqual([
      'Aborted Cleared',
      'Cleared Aborting',
      'Running Stopping',
      'Stopped Running',
    ]);
  });

  it('an abort goes by Aborting, and a held machine has no direct way to Execute', () => {
    const to = (from: PackmlState) =>
      transitions.filter(([source]) => source === from).map(([, target]) => target);
    expect(to('Execute')).toContain('Aborting');
    expect(to('Held')).not.toContain('Execute');
    for (const state of ['Aborting', 'Aborted', 'Clearing', 'Stopped', 'Stopping'] as const) {
      expect(to(state)).not.toContain('Stopping');
    }
  });

  it('a sampled stream may miss acting states: Execute then Held, Held then Execute', () => {
    expect(mayBeSeenAfter('Execute', 'Held')).toBe(true);
    expect(mayBeSeenAfter('Held', 'Execute')).toBe(true);
    expect(mayBeSeenAfter('Held', 'Complete')).toBe(false);
    expect(mayBeSeenAfter('Aborted', 'Execute')).toBe(false);
  });

  it('knows the other numbering of the same names (OPC 30060): Stopped 0, Execute 4', () => {
    expect([...opc30060.values()].sort()).toEqual([...opc30050.values()].sort());
    expect([opc30060.get(0), opc30060.get(4), opc30060.get(8)]).toEqual(['Stopped', 'Execute', 'Aborted']);
  });
});
