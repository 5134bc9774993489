/**
 * Everything the engine measures of a design, once, for the report, the messages and the sheet. Lathe frame,
 * mm. Curved outlines are measured on a polyline ten times finer than the report's promise (0.05 % of a length).
 */
import { coverageOf, type Coverage } from '../blank/coverage.ts';
import { crossingsOf, type Crossing } from '../blank/crossings.ts';
import { holeCylinder } from '../blank/holes.ts';
import { ringsOf, type Ring } from '../blank/rings.ts';
import { sectionGeometry } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import { blockVolumes, turnedVolumes, type PartVolumes } from '../blank/volumes.ts';
import type { Design, Form } from '../design/document.ts';
import { flattenOutline, type Profile } from '../geometry/outline.ts';
import { asMadeOf, type AsMade } from './made.ts';
import { sessionsOf, type SessionPlan } from './sessions.ts';
import { setupsOf, type Setup } from './setups.ts';
import { toleranceOf, type RingTolerance } from './tolerance.ts';

export interface FormMeasures {
  readonly profile: Profile;
  readonly turned: PartVolumes;
  readonly coverage: Coverage;
  readonly rings: readonly Ring[];
  readonly crossings: readonly Crossing[];
  readonly tolerance: readonly RingTolerance[];
}

export interface Measures {
  /** In cutting order, as all lists here. */
  readonly slots: readonly Slot[];
  readonly block: PartVolumes;
  /** null when the blank is left square. */
  readonly form: FormMeasures | null;
  readonly setups: readonly Setup[];
  /** What was measured at the saw, and what follows from it. */
  readonly made: readonly AsMade[];
  readonly plan: SessionPlan;
}

export function measuresOf(design: Design): Measures {
  const slots = slotsOf(design);
  const { blank, form, saw } = design;
  const setups = setupsOf(design);
  return {
    slots,
    block: blockVolumes(slots, sectionGeometry(blank.section), blank.length_mm),
    form: form && formMeasures({ ...design, form }, slots),
    setups,
    made: asMadeOf(design, setups),
    plan: sessionsOf(slots, blank, saw.max_open_slots, { stopSide: saw.stop_side }),
  };
}

function formMeasures(design: Design & { readonly form: Form }, slots: readonly Slot[]): FormMeasures {
  const profile = measuredProfile(design.form);
  const section = sectionGeometry(design.blank.section);
  const holes = (design.form.holes ?? []).map((hole) => holeCylinder(hole, design.form, profile));
  return {
    profile,
    turned: turnedVolumes(slots, profile, section, design.blank.length_mm, holes),
    coverage: coverageOf(slots, profile),
    rings: ringsOf(slots, profile),
    crossings: crossingsOf(slots, profile),
    tolerance: toleranceOf(design),
  };
}

/** Distance of the measured polyline from the exact outline, as a share of the form's largest radius. */
const OF_RADIUS = 5e-5;
const FINEST_MM = 2e-4;

/** The polyline that a form is measured on. */
export function measuredProfile(form: Form): Profile {
  const radius_mm = form.outline.reduce((most, point) => Math.max(most, point.r_mm), 0);
  return flattenOutline(form.outline, Math.max(FINEST_MM, OF_RADIUS * radius_mm), form.loop);
}
