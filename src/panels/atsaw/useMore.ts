/** What of a step lies below the edge of the window, brought up by a button: no swipe is needed. */
import { useEffect, useState, type RefObject } from 'react';

/** Whether there is more; a new step begins at its top. */
export function useMore(box: RefObject<HTMLElement | null>, stepId: string): boolean {
  const [more, setMore] = useState(false);
  useEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    element.scrollTop = 0;
    const look = () => setMore(element.scrollTop + element.clientHeight < element.scrollHeight - 24);
    const watch = new ResizeObserver(look);
    watch.observe(element);
    for (const child of element.children) watch.observe(child);
    element.addEventListener('scroll', look, { passive: true });
    look();
    return () => {
      watch.disconnect();
      element.removeEventListener('scroll', look);
    };
  }, [box, stepId]);
  return more;
}

export function showMore(box: RefObject<HTMLElement | null>): void {
  box.current?.scrollBy({ top: box.current.clientHeight * 0.7, behavior: 'smooth' });
}
