import type { Span } from '../../model/units/units.ts';

/**
 * What can go wrong between a machine and whoever listens to its PLC, at a time after the start of a run. What the
 * machine itself does wrong (jams, misfolds) is no fault in this sense: that is its life.
 */
export type Fault = { readonly at: Span } & FaultBody;

export type FaultBody =
  /** The cable is cut: both ends see it at once. The server keeps the subscription as long as its lifetime allows. */
  | { readonly kind: 'cut'; readonly lasts: Span }
  /** The cable goes dark: nothing comes through, and nobody is told. */
  | { readonly kind: 'dark'; readonly lasts: Span }
  /** The server's process ends and comes back after so long; its subscriptions are gone, the PLC's values are not. */
  | { readonly kind: 'killed'; readonly lasts: Span }
  /** As `killed`, and the new process numbers its subscriptions as the old one had. */
  | { readonly kind: 'reissued'; readonly lasts: Span }
  /** A program is downloaded: the PLC is away for so long, its counters begin at 0, its namespace has another number. */
  | { readonly kind: 'download'; readonly lasts: Span }
  /** A counter begins at 0 again. */
  | { readonly kind: 'reset'; readonly on: string }
  /** A counter is put right by hand: a little back, or forward. */
  | { readonly kind: 'corrected'; readonly on: string; readonly by: number }
  /** A counter is set to another number, as at the panel or by a program that keeps totals. */
  | { readonly kind: 'set'; readonly on: string; readonly to: number }
  /**
   * A counter is so many counts before its end, at which it begins at 0 again. At the start of a run nobody has looked
   * at it yet; later, whoever looks sees a step that nothing tells from a count.
   */
  | { readonly kind: 'rollover'; readonly on: string; readonly left: number }
  /** A tag's value is bad for so long; some servers send the value along, others none. */
  | { readonly kind: 'bad'; readonly on: string; readonly lasts: Span; readonly withValue: boolean }
  /** The heartbeat stands still, and all else goes on. */
  | { readonly kind: 'still'; readonly lasts: Span }
  /** The PLC's program stands still, heartbeat and all, and its server answers. */
  | { readonly kind: 'frozen'; readonly lasts: Span }
  /** A stop device's tag goes on and off again in so short a time that a sampling server may not see it. */
  | { readonly kind: 'pulse'; readonly on: string; readonly lasts: Span }
  /** From then on the PLC tells a tag's changes so much after they happened, stamped with when it tells them. */
  | { readonly kind: 'late'; readonly on: string; readonly lag: Span }
  /** From then on a tag's source time is off by so much, as that of a module with a clock of its own. */
  | { readonly kind: 'skewed'; readonly on: string; readonly by: Span }
  /** Values come without a source time. */
  | { readonly kind: 'stampless'; readonly lasts: Span }
  /** The PLC's clock is put forward or back, for good. */
  | { readonly kind: 'stepped'; readonly by: Span }
  /** The PLC's clock is put on local time, for good, and is sent as if it were UTC. */
  | { readonly kind: 'local' }
  /** The server keeps so many values of a tag between two publishes; `silent`: no overflow bit tells of the rest. */
  | { readonly kind: 'queue'; readonly size: number; readonly silent: boolean; readonly lasts: Span }
  /** The server looks at each tag only so often, by its own time: of what changed in between it tells the last. */
  | { readonly kind: 'sampled'; readonly every: Span; readonly lasts: Span }
  /** The server watches no more than so many tags of a subscription; of the rest it says so, and nothing else. */
  | { readonly kind: 'limited'; readonly items: number; readonly lasts: Span }
  /** The server says that nothing changed; then nothing comes through, what changes is sent for nothing, and the link breaks. */
  | { readonly kind: 'unheard'; readonly lasts: Span }
  /** Asked again for a message that it no longer has, the server answers with an empty one. */
  | { readonly kind: 'empty'; readonly lasts: Span }
  /** The server no longer trusts its clients' certificates: it breaks with them, and refuses new sessions. */
  | { readonly kind: 'refused'; readonly lasts: Span }
  /** Messages come twice, and the second time later. */
  | { readonly kind: 'twice'; readonly lasts: Span }
  /** Values of one message come mixed in time. */
  | { readonly kind: 'mixed'; readonly lasts: Span };

export type FaultKind = FaultBody['kind'];
