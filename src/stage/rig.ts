/**
 * The rig: the frame in which the lights stand. It is upright in the picture and turns with the camera about what is up
 * there, so the piece turns before the lights, as on a turntable, and lights from above are above however the blank is
 * held. Rig: x to the right, y up, z toward the camera. World: y-up, mm.
 */
import { Matrix4, Vector3 } from 'three';

/** Turns world directions into the rig's. `up`: what is up in the picture, length one; `toward`: from the piece to the eye. */
export function worldToRig(up: Vector3, toward: Vector3): Matrix4 {
  const front = toward.clone().addScaledVector(up, -toward.dot(up));
  // Straight from above every side is the front.
  if (front.lengthSq() < 1e-12 * toward.lengthSq()) front.set(up.y, up.z, up.x).cross(up);
  front.normalize();
  const right = new Vector3().crossVectors(up, front);
  return new Matrix4().makeBasis(right, up, front).transpose();
}
