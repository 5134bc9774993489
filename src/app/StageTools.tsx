/** Tools of the stage: camera, section plane, parts apart, strips inside, dimensions, the saw's side, compare. */
import {
  Box,
  CircleDot,
  Columns2,
  Crosshair,
  Layers,
  Map as MapIcon,
  Ruler,
  Scan,
  Slice,
  SquareSplitHorizontal,
  TriangleRight,
} from 'lucide-react';
import type { ReactNode } from 'react';
import { useApp } from './AppContext.ts';
import type { CameraPreset } from '../stage/props.ts';

const CAMERAS: readonly { preset: CameraPreset; name: string; key: string; icon: ReactNode }[] = [
  { preset: 'home', name: 'Reset the camera', key: 'R', icon: <Box /> },
  { preset: 'axis', name: 'Look along the axis', key: 'A', icon: <CircleDot /> },
  { preset: 'face', name: 'Look at face A', key: 'F', icon: <Scan /> },
  { preset: 'entry', name: 'Look at the entry side', key: 'E', icon: <Crosshair /> },
];

export function StageTools() {
  const view = useApp((state) => state.view);
  const variants = useApp((state) => state.work.variants.length);
  const setView = useApp((state) => state.setView);
  const showCamera = useApp((state) => state.showCamera);
  return (
    <div className="stage-tools" role="toolbar" aria-label="Stage">
      <div className="tool-group">
        {CAMERAS.map(({ preset, name, key, icon }) => (
          <button
            key={preset}
            type="button"
            className="icon"
            aria-label={name}
            title={`${name} (${key})`}
            onClick={() => showCamera(preset)}
          >
            {icon}
          </button>
        ))}
      </div>
      <div className="tool-group">
        <Toggle
          name="Section"
          keyName="S"
          on={view.section.on}
          onToggle={(on) => setView({ section: { ...view.section, on } })}
        >
          <Slice />
        </Toggle>
        <Toggle
          name="Parts apart"
          keyName="X"
          on={view.apart > 0}
          onToggle={(on) => setView({ apart: on ? 0.5 : 0 })}
        >
          <SquareSplitHorizontal />
        </Toggle>
        <Toggle
          name="Strips inside the wood"
          keyName="I"
          on={view.xray}
          onToggle={(xray) => setView({ xray })}
        >
          <Layers />
        </Toggle>
        <Toggle
          name="At the saw: fence, blade and stop"
          keyName="W"
          on={view.atTheSaw}
          onToggle={(atTheSaw) => setView({ atTheSaw })}
        >
          <TriangleRight />
        </Toggle>
        <Toggle
          name="Dimensions"
          keyName="D"
          on={view.dimensions}
          onToggle={(dimensions) => setView({ dimensions })}
        >
          <Ruler />
        </Toggle>
        {variants > 1 && (
          <Toggle name="Variants side by side" on={view.compare} onToggle={(compare) => setView({ compare })}>
            <Columns2 />
          </Toggle>
        )}
        <Toggle name="Unrolled map" keyName="M" on={view.map} onToggle={(map) => setView({ map })}>
          <MapIcon />
        </Toggle>
      </div>
    </div>
  );
}

interface ToggleProps {
  readonly name: string;
  readonly keyName?: string;
  readonly on: boolean;
  readonly onToggle: (on: boolean) => void;
  readonly children: ReactNode;
}

function Toggle({ name, keyName, on, onToggle, children }: ToggleProps) {
  return (
    <button
      type="button"
      className="icon"
      aria-pressed={on}
      aria-label={name}
      title={keyName === undefined ? name : `${name} (${keyName})`}
      onClick={() => onToggle(!on)}
    >
      {children}
    </button>
  );
}
