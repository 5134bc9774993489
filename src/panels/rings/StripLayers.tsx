/** The strip of a set: its layers from the foot side of the kerf to the head side, and how it fits. */
import { MoveHorizontal, Plus, X } from 'lucide-react';
import type { DisplayUnit, SlotSet, StripLayer } from '../../design/document.ts';
import { updateSet } from '../../design/edits.ts';
import { formatThickness } from '../../design/lengthText.ts';
import { MAX_LAYERS } from '../../design/limits.ts';
import { setStripGrain } from '../../design/woodEdits.ts';
import { colourDifference, LOW_CONTRAST_DE00 } from '../../timber/colour.ts';
import { timberById } from '../../timber/timbers.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { thicknessQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';
import { TimberPicker } from '../fields/TimberPicker.tsx';
import type { SetAct } from './SetEditor.tsx';
import { inSentence, timberName } from '../../timber/names.ts';

/** Thicknesses closer than this are the same. */
const SAME_MM = 5e-4;

export interface StripLayersProps {
  readonly unit: DisplayUnit;
  /** Timber of the blank, which the strip is seen against. */
  readonly body: string;
  readonly set: SlotSet;
  readonly onAct: SetAct;
  readonly onSettle: () => void;
}

export function StripLayers({ unit, body, set, onAct, onSettle }: StripLayersProps) {
  const { layers } = set.strip;
  const change = (next: readonly StripLayer[], gesture?: string) =>
    onAct('strip', (current) => updateSet(current, set.id, { strip: { layers: next } }), gesture);
  const total_mm = Number(layers.reduce((sum, layer) => sum + layer.thickness_mm, 0).toPrecision(10));
  const pale = [...new Set(layers.map((layer) => layer.timber))].filter((timber) =>
    hardlyShows(timber, body),
  );
  const fit_mm = total_mm - set.kerf_mm;
  return (
    <div className="strip-layers">
      {layers.map((layer, i) => (
        <div key={i} className="layer">
          <div className="removable">
            <TimberPicker
              bare
              label={layers.length === 1 ? 'Strip' : `Layer ${i + 1}`}
              value={layer.timber}
              onChange={(timber) => change(layers.with(i, { ...layer, timber }))}
            />
            {layers.length > 1 && (
              <button
                type="button"
                className="icon"
                aria-label={`Remove layer ${i + 1}`}
                onClick={() => change(layers.toSpliced(i, 1))}
              >
                <X />
              </button>
            )}
          </div>
          <NumberField
            label={layers.length === 1 ? 'Strip thickness' : `Layer ${i + 1} thickness`}
            value={layer.thickness_mm}
            quantity={thicknessQuantity(unit)}
            min={0.02}
            max={50}
            onChange={(thickness_mm, gesture) => change(layers.with(i, { ...layer, thickness_mm }), gesture)}
            onSettle={onSettle}
          />
          <Segmented
            label={layers.length === 1 ? 'Fibre of the strip' : `Fibre of layer ${i + 1}`}
            field
            value={layer.grain ?? 'length'}
            choices={[
              { value: 'length', name: 'Along its length' },
              { value: 'depth', name: 'Down the slope' },
            ]}
            onChange={(grain) => onAct('strip fibre', (current) => setStripGrain(current, set.id, i, grain))}
          />
        </div>
      ))}
      <div className="strip-foot">
        <button
          type="button"
          className="button quiet"
          disabled={layers.length >= MAX_LAYERS}
          onClick={() => change([...layers, layers[layers.length - 1]])}
        >
          <Plus /> Add a layer
        </button>
        <p className="lede">{fitWords(fit_mm, unit)}</p>
      </div>
      {Math.abs(fit_mm) >= SAME_MM && (
        <button
          type="button"
          className="button quiet"
          onClick={() => onAct('kerf', (current) => updateSet(current, set.id, { kerf_mm: total_mm }))}
        >
          <MoveHorizontal /> Make the kerf {formatThickness(total_mm, unit)}
        </button>
      )}
      {pale.length > 0 && (
        <p className="lede hint">
          {pale.map(timberName).join(' and ')} hardly shows against {inSentence(timberName(body))}: the
          colours are close.
        </p>
      )}
    </div>
  );
}

/** Whether two timbers are closer in colour than a glance tells apart (CIEDE2000, timber/colour.ts). */
function hardlyShows(timber: string, body: string): boolean {
  const a = timberById(timber);
  const b = timberById(body);
  return a !== undefined && b !== undefined && colourDifference(a.lab, b.lab) < LOW_CONTRAST_DE00;
}

function fitWords(fit_mm: number, unit: DisplayUnit): string {
  if (Math.abs(fit_mm) < SAME_MM) return 'Fills the kerf';
  const size = formatThickness(Math.abs(fit_mm), unit);
  return fit_mm > 0 ? `${size} thicker than the kerf` : `${size} thinner than the kerf`;
}
