/** Settings of the section and of the parts pulled apart, shown on the stage while they are on. */
import type { ReactNode } from 'react';
import type { DisplayUnit } from '../design/document.ts';
import { formatAngle, formatLength } from '../design/lengthText.ts';
import { Segmented } from '../panels/fields/Segmented.tsx';
import { useApp } from './AppContext.ts';
import { sectionReach_mm } from './stageView.ts';
import { HOME_SECTION, type SectionChoice } from './view.ts';
import './section.css';

const KINDS = [
  { value: 'plane', name: 'Plane' },
  { value: 'wedge', name: 'Wedge' },
  { value: 'octant', name: 'Octant' },
] as const;

export function SectionCard() {
  const view = useApp((state) => state.view);
  const setView = useApp((state) => state.setView);
  const { section, apart } = view;
  const change = (to: Partial<SectionChoice>) => setView({ section: { ...section, ...to } });
  if (!section.on && apart === 0) return null;
  return (
    <aside className="stage-card" aria-label="Settings of the picture" data-rows={section.on ? 2 : 1}>
      {section.on && (
        <div className="card-choices">
          <Segmented
            label="What is cut away"
            value={section.kind}
            choices={KINDS}
            onChange={(kind) => change({ kind, tilt_deg: 0, place: kind === 'octant' ? 0 : section.place })}
          />
          <button
            type="button"
            className="button"
            onClick={() => change({ ...HOME_SECTION, kind: section.kind, on: true })}
          >
            Through the axis
          </button>
        </div>
      )}
      <div className="card-sliders">
        {section.on && <SectionSliders section={section} change={change} />}
        {apart > 0 && (
          <Slider
            label="Parts apart"
            text={`${Math.round(apart * 100)} %`}
            min={0.02}
            max={1}
            step={0.02}
            value={apart}
            onChange={(value) => setView({ apart: value })}
          />
        )}
      </div>
      <button
        type="button"
        className="button"
        onClick={() => setView({ apart: 0, section: { ...section, on: false } })}
      >
        Whole again
      </button>
    </aside>
  );
}

interface SectionSlidersProps {
  readonly section: SectionChoice;
  readonly change: (to: Partial<SectionChoice>) => void;
}

function SectionSliders({ section, change }: SectionSlidersProps) {
  const blank = useApp((state) => state.design.blank);
  const unit = useApp((state) => state.design.unit);
  const plane = section.kind === 'plane';
  const reach_mm = plane ? sectionReach_mm(section, blank) : blank.length_mm / 2;
  return (
    <>
      {section.kind === 'wedge' ? (
        <Slider
          label="Opening"
          text={formatAngle(section.opening_deg)}
          min={10}
          max={170}
          step={5}
          value={section.opening_deg}
          onChange={(opening_deg) => change({ opening_deg })}
        />
      ) : (
        <Slider
          label="Place"
          text={placeWords(section.place * reach_mm, unit)}
          min={-1}
          max={1}
          step={0.01}
          value={section.place}
          onChange={(place) => change({ place })}
        />
      )}
      <Slider
        label="Tilt"
        text={plane ? tiltWords(section.tilt_deg) : formatAngle(section.tilt_deg)}
        min={0}
        max={90}
        step={1}
        value={section.tilt_deg}
        onChange={(tilt_deg) => change({ tilt_deg })}
      />
      <Slider
        label="Turned to"
        text={formatAngle(section.azimuth_deg)}
        min={0}
        max={360}
        step={5}
        value={section.azimuth_deg}
        onChange={(azimuth_deg) => change({ azimuth_deg })}
      />
    </>
  );
}

function tiltWords(tilt_deg: number): string {
  if (tilt_deg === 0) return 'along the axis';
  return tilt_deg === 90 ? 'across' : formatAngle(tilt_deg);
}

function placeWords(offset_mm: number, unit: DisplayUnit): string {
  if (Math.abs(offset_mm) < 0.005) return 'middle';
  return `${formatLength(offset_mm, unit)} off`;
}

interface SliderProps {
  readonly label: string;
  readonly text: ReactNode;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly value: number;
  readonly onChange: (value: number) => void;
}

function Slider({ label, text, min, max, step, value, onChange }: SliderProps) {
  return (
    <label className="card-slider">
      <span>
        {label} <output>{text}</output>
      </span>
      <input
        type="range"
        min={min}
        max={max}
        step={step}
        value={value}
        onChange={(event) => onChange(event.target.valueAsNumber)}
      />
    </label>
  );
}
