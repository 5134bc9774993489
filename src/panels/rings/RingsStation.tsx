/** Station 2: the sets of slots, the one being edited, the order of cutting, and the numbers of the rings. */
import { useBench } from '../bench.ts';
import { CompareAngles } from './CompareAngles.tsx';
import { OrderList } from './OrderList.tsx';
import { SetEditor } from './SetEditor.tsx';
import { SetList } from './SetList.tsx';
import './rings.css';

export function RingsStation() {
  const design = useBench((bench) => bench.design);
  const selected = useBench((bench) => bench.selectedSet);
  const set = design.sets.find((candidate) => candidate.id === selected);
  return (
    <>
      <SetList />
      {set && <SetEditor key={set.id} design={design} set={set} />}
      {design.sets.length > 0 && <CompareAngles design={design} />}
      {design.order.length > 1 && <OrderList design={design} />}
    </>
  );
}
