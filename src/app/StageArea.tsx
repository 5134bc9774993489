/** The stage: loaded after the first paint, replaced by words where the browser has no WebGL. */
export function StageArea() {
  return <main className="stage" aria-label="Stage" />;
}
