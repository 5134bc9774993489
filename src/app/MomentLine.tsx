/** The line of moments under the stage. */
export function MomentLine() {
  return <section className="moments" aria-label="Moments" />;
}
