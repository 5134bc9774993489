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

const CAMERAS: readonly {
  preset: CameraPreset;
  name: string;
  /** A word of the name, under the icon. */
  short: string;
  key: string;
  icon: ReactNode;
}[] = [
  { preset: 'home', name: 'Reset the camera', short: 'Reset', key: 'R', icon: <Box /> },
  { preset: 'axis', name: 'Look along the axis', short: 'Axis', key: 'A', icon: <CircleDot /> },
  { preset: 'face', name: 'Look at face A', short: 'Face A', key: 'F', icon: <Scan /> },
  { preset: 'entry', name: 'Look at the entry side', short: 'Entry', key: 'E', icon: <Crosshair /> },
];

export function StageTools() {
  const view = useApp((state) => state.view);
  const variants = useApp((state) => state.work.variants.length);
  const setView = useApp((state) => state.setView);
  const showCamera = useApp((state) => state.showCamera);
  return (
    <div className="stage-tools" role="toolbar" aria-label="Stage">
      <div className="tool-group">
        {CAMERAS.map(({ preset, name, short, key, icon }) => (
          <button
            key={preset}
            type="button"
            className="icon"
            aria-label={name}
            title={`${name} (${key})`}
            onClick={() => showCamera(preset)}
          >
            {icon}
            <ToolName>{short}</ToolName>
          </button>
        ))}
      </div>
      <div className="tool-group">
        <Toggle
          name="Section"
          short="Section"
          keyName="S"
          on={view.section.on}
          onToggle={(on) => setView({ section: { ...view.section, on } })}
        >
          <Slice />
        </Toggle>
        <Toggle
          name="Parts apart"
          short="Apart"
          keyName="X"
          on={view.apart > 0}
          onToggle={(on) => setView({ apart: on ? 0.5 : 0 })}
        >
          <SquareSplitHorizontal />
        </Toggle>
        <Toggle
          name="Strips inside the wood"
          short="Inside"
          keyName="I"
          on={view.xray}
          onToggle={(xray) => setView({ xray })}
        >
          <Layers />
        </Toggle>
        <Toggle
          name="At the saw: fence, blade and stop"
          short="Saw"
          keyName="W"
          on={view.atTheSaw}
          onToggle={(atTheSaw) => setView({ atTheSaw })}
        >
          <TriangleRight />
        </Toggle>
        <Toggle
          name="Dimensions"
          short="Dimensions"
          keyName="D"
          on={view.dimensions}
          onToggle={(dimensions) => setView({ dimensions })}
        >
          <Ruler />
        </Toggle>
        {variants > 1 && (
          <Toggle
            name="Variants side by side"
            short="Variants"
            on={view.compare}
            onToggle={(compare) => setView({ compare })}
          >
            <Columns2 />
          </Toggle>
        )}
        <Toggle
          name="Unrolled map"
          short="Map"
          keyName="M"
          on={view.map}
          onToggle={(map) => setView({ map })}
        >
          <MapIcon />
        </Toggle>
      </div>
    </div>
  );
}

interface ToggleProps {
  readonly name: string;
  readonly short: string;
  readonly keyName?: string;
  readonly on: boolean;
  readonly onToggle: (on: boolean) => void;
  readonly children: ReactNode;
}

function Toggle({ name, short, keyName, on, onToggle, children }: ToggleProps) {
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
      <ToolName>{short}</ToolName>
    </button>
  );
}

function ToolName({ children }: { readonly children: string }) {
  return (
    <span className="tool-name" aria-hidden="true">
      {children}
    </span>
  );
}
