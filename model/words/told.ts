/** What sentences need to know beside their facts: the line's zone, the moment to count with, the stations' names. */
export interface Told {
  readonly zone: string;
  /** Moment to count with. */
  readonly now: number;
  readonly station: (id: string | undefined) => string | undefined;
}
