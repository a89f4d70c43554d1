/** The functions of the Cephes library that are used here; the package's own types are not found through its exports. */
declare module 'cephes' {
  /** The functions may be called once this has come. */
  export const compiled: Promise<void>;
  export function igam(shape: number, x: number): number;
  export function igamc(shape: number, x: number): number;
  export function igami(shape: number, above: number): number;
  export function chdtr(degrees: number, x: number): number;
  export function chdtrc(degrees: number, x: number): number;
  export function chdtri(degrees: number, above: number): number;
  export function incbet(a: number, b: number, x: number): number;
  export function incbi(a: number, b: number, below: number): number;
  export function pdtr(count: number, mean: number): number;
  export function pdtrc(count: number, mean: number): number;
  export function bdtr(count: number, trials: number, share: number): number;
  export function bdtrc(count: number, trials: number, share: number): number;
  export function nbdtr(count: number, size: number, p: number): number;
  export function nbdtrc(count: number, size: number, p: number): number;
  export function ndtr(z: number): number;
  export function ndtri(below: number): number;
  export function lgam(x: number): number;
}
