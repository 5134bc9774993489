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
import type { View } from './view.ts';

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

interface ToggleTool {
  readonly name: string;
  readonly short: string;
  /** null: of the variants, shown while there are several. */
  readonly key: string | null;
  readonly icon: ReactNode;
  readonly on: (view: View) => boolean;
  readonly turned: (view: View, on: boolean) => Partial<View>;
}

const TOGGLES: readonly ToggleTool[] = [
  {
    name: 'Section',
    short: 'Section',
    key: 'S',
    icon: <Slice />,
    on: (view) => view.section.on,
    turned: ({ section }, on) => ({ section: { ...section, on } }),
  },
  {
    name: 'Parts apart',
    short: 'Apart',
    key: 'X',
    icon: <SquareSplitHorizontal />,
    on: (view) => view.apart > 0,
    turned: (_, on) => ({ apart: on ? 0.5 : 0 }),
  },
  {
    name: 'Strips inside the wood',
    short: 'Inside',
    key: 'I',
    icon: <Layers />,
    on: (view) => view.xray,
    turned: (_, xray) => ({ xray }),
  },
  {
    name: 'At the saw: fence, blade and stop',
    short: 'Saw',
    key: 'W',
    icon: <TriangleRight />,
    on: (view) => view.atTheSaw,
    turned: (_, atTheSaw) => ({ atTheSaw }),
  },
  {
    name: 'Dimensions',
    short: 'Dimensions',
    key: 'D',
    icon: <Ruler />,
    on: (view) => view.dimensions,
    turned: (_, dimensions) => ({ dimensions }),
  },
  {
    name: 'Variants side by side',
    short: 'Variants',
    key: null,
    icon: <Columns2 />,
    on: (view) => view.compare,
    turned: (_, compare) => ({ compare }),
  },
  {
    name: 'Unrolled map',
    short: 'Map',
    key: 'M',
    icon: <MapIcon />,
    on: (view) => view.map,
    turned: (_, map) => ({ map }),
  },
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
        {TOGGLES.map(({ name, short, key, icon, on, turned }) =>
          key === null && variants < 2 ? null : (
            <button
              key={name}
              type="button"
              className="icon"
              aria-pressed={on(view)}
              aria-label={name}
              title={key === null ? name : `${name} (${key})`}
              onClick={() => setView(turned(view, !on(view)))}
            >
              {icon}
              <ToolName>{short}</ToolName>
            </button>
          ),
        )}
      </div>
    </div>
  );
}

function ToolName({ children }: { readonly children: string }) {
  return (
    <span className="tool-name" aria-hidden="true">
      {children}
    </span>
  );
}
