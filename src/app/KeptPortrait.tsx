/** A kept design in small. */
import { useCallback } from 'react';
import type { Shelf } from './keepShelf.ts';
import { Portrait } from './Portrait.tsx';

interface KeptPortraitProps {
  readonly shelf: Shelf;
  readonly id: string;
  readonly edited_ms: number;
}

export function KeptPortrait({ shelf, id, edited_ms }: KeptPortraitProps) {
  const look = useCallback(() => shelf.lookAt(id), [shelf, id]);
  return <Portrait of={`${id} ${edited_ms}`} look={look} />;
}
