/** Names of gestures: all changes that carry the same name are one undo step. */
let gestures = 0;

/** A gesture name that no other change has. */
export function newGesture(): string {
  gestures += 1;
  return `gesture-${gestures}`;
}
