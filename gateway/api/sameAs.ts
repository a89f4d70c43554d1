import type { z } from 'zod';

/** A type as a program gets it: a number has no unit, nothing is read-only, and what is not known is undefined. */
type Told<Type> = Type extends number
  ? number
  : Type extends string | boolean | null | undefined
    ? Type
    : { -readonly [Key in keyof Type]-?: Told<Type[Key]> };

type Same<One, Other> = [Told<One>] extends [Told<Other>]
  ? [Told<Other>] extends [Told<One>]
    ? unknown
    : { readonly describesLessThan: One }
  : { readonly describesOtherThan: One };

/** A schema of what the model tells. It compiles only while both are the same, key by key: neither moves without the other. */
export function sameAs<Model>() {
  return <Schema extends z.ZodType>(schema: Schema & Same<Model, z.infer<Schema>>): Schema => schema;
}
