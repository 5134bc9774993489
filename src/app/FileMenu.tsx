/** New, open, save, share and the starter designs: the menu at the right of the bar. */
import { FolderOpen, Keyboard, Library, Save, SaveAll, Share2, SquarePlus, SunMoon } from 'lucide-react';
import { useId, useState, type ReactNode } from 'react';
import { useAppStore } from './AppContext.ts';
import { chooseFile, openFile, saveDesign, saveDesignAs } from './fileCommands.ts';
import { hasSavePicker } from './openSave.ts';
import { emptyDesign } from './starter.ts';
import { StarterList } from './StarterList.tsx';

export function FileMenu() {
  const store = useAppStore();
  const id = useId();
  const [open, setOpen] = useState(false);
  const [opened, setOpened] = useState(false);
  const state = store.getState;
  const startEmpty = () => {
    const { design } = state();
    state().openDesign(emptyDesign(design.unit, design.saw), 'empty');
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
        id={id}
        popover="auto"
        className="menu"
        onToggle={(event) => {
          setOpen(event.newState === 'open');
          if (event.newState === 'open') setOpened(true);
        }}
      >
        <ul>
          <Item icon={<SquarePlus />} menu={id} onClick={startEmpty}>
            New, from an empty blank
          </Item>
          <Item icon={<Library />} menu={id} onClick={() => state().showDialog('designs')}>
            Your designs …
          </Item>
          <Item icon={<FolderOpen />} keys="Ctrl O" menu={id} onClick={() => void chooseFile(store)}>
            Open a file …
          </Item>
          <Item icon={<Save />} keys="Ctrl S" menu={id} onClick={() => void saveDesign(store)}>
            Save to a file
          </Item>
          {hasSavePicker(window) && (
            <Item icon={<SaveAll />} keys="Ctrl Shift S" menu={id} onClick={() => void saveDesignAs(store)}>
              Save as another file …
            </Item>
          )}
          <Item icon={<Share2 />} menu={id} onClick={() => state().showDialog('share')}>
            Share …
          </Item>
        </ul>
        <ul className="narrow-only">
          <Item icon={<SunMoon />} menu={id} onClick={() => state().switchTheme()}>
            Light or dark
          </Item>
          <Item icon={<Keyboard />} menu={id} onClick={() => state().showKeys(true)}>
            Keys
          </Item>
        </ul>
        <h3>Starter designs</h3>
        {opened && (
          <StarterList
            menu={id}
            choose={(design) => state().openDesign({ ...design, unit: state().design.unit }, 'starter')}
          />
        )}
      </div>
      <input
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
  /** Id of the menu, which closes first: what comes may take the focus. */
  readonly menu: string;
  readonly icon: ReactNode;
  readonly keys?: string;
  readonly onClick: () => void;
  readonly children: ReactNode;
}

function Item({ menu, icon, keys, onClick, children }: ItemProps) {
  return (
    <li>
      <button
        type="button"
        onClick={() => {
          document.getElementById(menu)?.hidePopover();
          onClick();
        }}
      >
        {icon} {children} {keys !== undefined && <kbd>{keys}</kbd>}
      </button>
    </li>
  );
}
