/** A copy of a JSON document with one place changed, named as faults name it: `sets[0].angle_deg`. */

/** As a value: the place is taken out. */
export const TAKEN_OUT = Symbol('taken out');

export function changed(document: unknown, path: string, value: unknown): unknown {
  const steps = path.match(/[^.[\]]+/g) ?? [];
  const copy: unknown = structuredClone(document);
  let holder = copy as object;
  for (const step of steps.slice(0, -1)) holder = Reflect.get(holder, step) as object;
  const last = steps[steps.length - 1];
  if (value === TAKEN_OUT) Reflect.deleteProperty(holder, last);
  else Reflect.set(holder, last, value);
  return copy;
}
