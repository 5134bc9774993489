/** From the view as the maker sets it to the stage's properties. Lathe frame, mm. */
import type { Blank, Design } from '../design/document.ts';
import { setFinish } from '../design/woodEdits.ts';
import { sectionGeometry, support_mm } from '../design/section.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import {
  DEFAULT_VIEW,
  type CutawayView,
  type SectionView,
  type StageVariant,
  type StageView,
} from '../stage/props.ts';
import { choicesOf } from './choices.ts';
import { inClientsUnit } from './show/clientUnit.ts';
import { stageVariantOf } from './sampleMarks.ts';
import type { AppState } from './store.ts';
import type { SectionChoice } from './view.ts';

/** The plane of a section choice; its normal points to the wood that is taken away. */
export function sectionOf(choice: SectionChoice, blank: Blank): SectionView | null {
  if (!choice.on || choice.kind !== 'plane') return null;
  const across = cosDeg(choice.tilt_deg);
  const along = sinDeg(choice.tilt_deg);
  const normal = [across * cosDeg(choice.azimuth_deg), across * sinDeg(choice.azimuth_deg), along] as const;
  const middle_mm = (along * blank.length_mm) / 2;
  return { normal, offset_mm: middle_mm + choice.place * sectionReach_mm(choice, blank) };
}

/** The wedge or octant of a section choice, its edge through the lathe axis. */
export function cutawayOf(choice: SectionChoice, blank: Blank): CutawayView | null {
  if (!choice.on || choice.kind === 'plane') return null;
  const z_mm = (blank.length_mm / 2) * (1 + choice.place);
  const { kind, azimuth_deg, tilt_deg, opening_deg } = choice;
  const cutter = { kind, at_mm: [0, 0, z_mm], azimuth_deg, tilt_deg } as const;
  return kind === 'wedge' ? { ...cutter, opening_deg } : cutter;
}

/** How far the blank reaches from its middle along the plane's normal, mm. */
export function sectionReach_mm(choice: SectionChoice, blank: Blank): number {
  const section = sectionGeometry(blank.section);
  return (
    Math.abs(cosDeg(choice.tilt_deg)) * support_mm(section, choice.azimuth_deg) +
    Math.abs(sinDeg(choice.tilt_deg)) * (blank.length_mm / 2)
  );
}

export function stageViewOf(view: AppState['view'], design: Design): StageView {
  return {
    section: sectionOf(view.section, design.blank),
    cutaway: cutawayOf(view.section, design.blank),
    apart: view.apart,
    xray: view.xray,
    dimensions: view.dimensions,
    atTheSaw: view.atTheSaw,
    projection: view.projection,
    camera: view.camera,
    turntable: false,
  };
}

/** What a client sees: nothing cut away, no tools of the trade. */
export function shownViewOf(view: AppState['view']): StageView {
  const { light, dimensions, reference } = view.shown;
  return {
    ...DEFAULT_VIEW,
    camera: view.camera,
    turntable: view.turntable,
    light,
    dimensions,
    ...(reference === null ? {} : { reference }),
  };
}

/** What stands on the stage: the active variant alone, or all of them side by side. */
export function stageVariantsOf(work: AppState['work'], compare: boolean): StageVariant[] {
  const shown = compare ? work.variants : [work.variants[work.active]];
  return shown.map((variant) => stageVariantOf(work, variant));
}

/** What is shown to a client: choices alone, in the finish that is tried on where there is one; `client`: on the client's page. */
export function shownVariantsOf(
  work: AppState['work'],
  compare: boolean,
  finish: AppState['view']['shown']['finish'],
  client = false,
): StageVariant[] {
  const choices = compare ? choicesOf(work) : [work.variants[work.active]];
  return choices.map((variant) => {
    const { marks: _, design: own, ...shown } = stageVariantOf(work, variant);
    const design = client ? inClientsUnit(own) : own;
    return { ...shown, design: finish === null ? design : setFinish(design, finish) };
  });
}
