/** What is measured at a step, kept in the design: the test cut's kerf, a slot's kerf and web, its strip. */
import { ListChecks } from 'lucide-react';
import { useState } from 'react';
import type { Design, MadeSlot } from '../../design/document.ts';
import { setSaw } from '../../design/edits.ts';
import { setMade } from '../../design/sawEdits.ts';
import { thickness } from '../../files/sheet/numbers.ts';
import { useBench } from '../bench.ts';
import { asMade } from './made.ts';
import { Stepper } from './Stepper.tsx';
import type { SawStep, StepSource } from './steps.ts';
import { verdictOf } from './verdicts.ts';

/** A kerf or strip of nothing is none. */
const LEAST_MM = 0.1;

export function MadeFields({ step, design, source }: { step: SawStep; design: Design; source: StepSource }) {
  const edit = useBench((bench) => bench.edit);
  const [reason, setReason] = useState<string | null>(null);
  const { unit } = design;
  if (step.kind === 'practice')
    return (
      <div className="saw-fields">
        <Stepper
          label="Kerf measured"
          measured_mm={design.saw.blade_kerf_mm ?? null}
          planned_mm={source.setups[0].kerf_mm}
          unit={unit}
          min_mm={LEAST_MM}
          onChange={(value) =>
            setReason(
              edit(
                'kerf of the test cut',
                (current) => setSaw(current, { blade_kerf_mm: value ?? undefined }),
                'kerf of the test cut',
              ),
            )
          }
        />
        <Reason reason={reason} />
      </div>
    );
  if (step.kind !== 'measure' && step.kind !== 'strip') return null;
  const { setup } = step.cut;
  const { slot } = setup;
  const made = asMade(design, slot);
  const own = design.made?.[slot] ?? {};
  const record = (field: keyof MadeSlot, value: number | null) => {
    const label = `${FIELD_NAMES[field]} of ${slot} as made`;
    setReason(edit(label, (current) => setMade(current, slot, { [field]: value ?? undefined }), label));
  };
  const planned: Readonly<Record<keyof MadeSlot, number>> = {
    kerf_mm:
      design.saw.blade_kerf_mm === undefined || own.kerf_mm !== undefined ? setup.kerf_mm : made.kerf_mm,
    web_mm: setup.blade_stop_mm,
    strip_mm: made.toMake_mm,
  };
  const fields: readonly (keyof MadeSlot)[] = step.kind === 'measure' ? ['kerf_mm', 'web_mm'] : ['strip_mm'];
  return (
    <div className="saw-fields">
      {fields.map((field) => (
        <Stepper
          key={field}
          label={`${FIELD_NAMES[field]} measured`}
          measured_mm={own[field] ?? null}
          planned_mm={planned[field]}
          unit={unit}
          min_mm={field === 'web_mm' ? 0 : LEAST_MM}
          verdict={verdictOf(field, setup, design)}
          onChange={(value) => record(field, value)}
        />
      ))}
      {step.kind === 'measure' && own.kerf_mm !== undefined && (
        <KerfForAll
          kerf_mm={own.kerf_mm}
          blade_mm={design.saw.blade_kerf_mm}
          inPasses={setup.passes !== null}
          unit={unit}
          onUse={(blade_kerf_mm) =>
            setReason(edit('kerf of the test cut', (current) => setSaw(current, { blade_kerf_mm })))
          }
        />
      )}
      <Reason reason={reason} />
    </div>
  );
}

/** Kerfs closer than this are the same, mm. */
const SAME_MM = 5e-4;

/** The blade that made this slot makes the next ones too: strips, passes and stops can follow from what it cut. */
function KerfForAll(props: {
  readonly kerf_mm: number;
  readonly blade_mm: number | undefined;
  readonly inPasses: boolean;
  readonly unit: Design['unit'];
  readonly onUse: (kerf_mm: number) => void;
}) {
  const { kerf_mm, blade_mm, inPasses, unit, onUse } = props;
  // What was sawn in passes is wider than the blade.
  if (inPasses || (blade_mm !== undefined && Math.abs(blade_mm - kerf_mm) < SAME_MM)) return null;
  return (
    <button type="button" className="saw-button saw-kerf-all" onClick={() => onUse(kerf_mm)}>
      <ListChecks /> Use {thickness(kerf_mm, unit)} for all cuts not measured
    </button>
  );
}

const FIELD_NAMES: Readonly<Record<keyof MadeSlot, string>> = {
  kerf_mm: 'Kerf',
  web_mm: 'Web',
  strip_mm: 'Strip',
};

function Reason({ reason }: { reason: string | null }) {
  if (reason === null) return null;
  return (
    <p className="saw-reason" role="alert">
      {reason}
    </p>
  );
}
