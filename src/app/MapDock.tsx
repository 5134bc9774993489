/** The unrolled map beside the stage. */
export function MapDock() {
  return <section className="dock" aria-label="Unrolled map" />;
}
