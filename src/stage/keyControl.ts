/** The keys of the stage while it has the focus: arrows turn the piece (with shift, farther), + and − zoom. */
import type { CameraControl } from './cameraControl.ts';

const TURN_DEG = 7.5;
const ZOOM_STEP = 1.15;

/** Makes the canvas a control that the keyboard reaches; returns what takes it back. */
export function listenForStageKeys(canvas: HTMLCanvasElement, camera: CameraControl): () => void {
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'application');
  canvas.setAttribute('aria-label', 'Workpiece. Arrow keys turn it, plus and minus zoom.');
  canvas.style.outlineOffset = '-3px';
  const down = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = event.shiftKey ? 3 * TURN_DEG : TURN_DEG;
    if (event.key === 'ArrowLeft') camera.orbit(-step, 0);
    else if (event.key === 'ArrowRight') camera.orbit(step, 0);
    else if (event.key === 'ArrowUp') camera.orbit(0, step);
    else if (event.key === 'ArrowDown') camera.orbit(0, -step);
    else if (event.key === '+' || event.key === '=') camera.zoom(ZOOM_STEP);
    else if (event.key === '-') camera.zoom(1 / ZOOM_STEP);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  canvas.addEventListener('keydown', down);
  return () => canvas.removeEventListener('keydown', down);
}
