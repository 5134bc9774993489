/** New, open, save, share and the starter designs: the menu at the right of the bar. */
import { FolderOpen, Keyboard, Library, Save, Share2, SquarePlus, SunMoon } from 'lucide-react';
import { useId, useRef, useState, type ReactNode } from 'react';
import { useAppStore } from './AppContext.ts';
import { openFile, saveDesign } from './fileCommands.ts';
import { emptyDesign } from './starter.ts';
import { StarterList } from './StarterList.tsx';

export function FileMenu() {
  const store = useAppStore();
  const id = useId();
  const menu = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const [open, setOpen] = useState(false);
  const [opened, setOpened] = useState(false);
  const state = store.getState;
  /** What a row does: the menu goes first, for what comes may take the focus. */
  const then = (act: () => void) => () => {
    menu.current?.hidePopover();
    act();
  };
  const startEmpty = () => {
    state().openDesign(emptyDesign(state().design.unit), 'empty');
    state().setStation('blank');
  };

  return (
    <>
      <button
        type="button"
        className="button quiet menu-button"
        popoverTarget={id}
        aria-expanded={open}
        aria-haspopup="true"
      >
        <FolderOpen /> <span>Designs</span>
      </button>
      <div
        ref={menu}
        id={id}
        popover="auto"
        className="menu"
        onToggle={(event) => {
          setOpen(event.newState === 'open');
          if (event.newState === 'open') setOpened(true);
        }}
      >
        <ul>
          <Item icon={<SquarePlus />} onClick={then(startEmpty)}>
            New, from an empty blank
          </Item>
          <Item icon={<Library />} onClick={then(() => state().showDialog('designs'))}>
            Your designs …
          </Item>
          <Item icon={<FolderOpen />} keys="Ctrl O" onClick={then(() => field.current?.click())}>
            Open a file …
          </Item>
          <Item icon={<Save />} keys="Ctrl S" onClick={then(() => void saveDesign(store))}>
            Save to a file
          </Item>
          <Item icon={<Share2 />} onClick={then(() => state().showDialog('share'))}>
            Share …
          </Item>
        </ul>
        <ul className="narrow-only">
          <Item icon={<SunMoon />} onClick={then(() => state().switchTheme())}>
            Light or dark
          </Item>
          <Item icon={<Keyboard />} onClick={then(() => state().showKeys(true))}>
            Keys
          </Item>
        </ul>
        <h3>Starter designs</h3>
        {opened && (
          <StarterList
            choose={(design) =>
              then(() => state().openDesign({ ...design, unit: state().design.unit }, 'starter'))()
            }
          />
        )}
      </div>
      <input
        ref={field}
        id="open-file"
        type="file"
        accept=".json,application/json"
        aria-label="Design file to open"
        hidden
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) void openFile(store, file);
        }}
      />
    </>
  );
}

interface ItemProps {
  readonly icon: ReactNode;
  readonly keys?: string;
  readonly onClick: () => void;
  readonly children: ReactNode;
}

function Item({ icon, keys, onClick, children }: ItemProps) {
  return (
    <li>
      <button type="button" onClick={onClick}>
        {icon} {children} {keys !== undefined && <kbd>{keys}</kbd>}
      </button>
    </li>
  );
}
