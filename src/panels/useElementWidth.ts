/** Width of an element in CSS pixels, kept up to date; 0 before the first layout. */
import { useCallback, useState } from 'react';

export function useElementWidth(): [ref: (element: HTMLElement | null) => void, width_px: number] {
  const [width, setWidth] = useState(0);
  const ref = useCallback((element: HTMLElement | null) => {
    if (!element) return undefined;
    setWidth(element.clientWidth);
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, width];
}
