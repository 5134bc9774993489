/** The Show station: how the piece is shown, what is offered to a client and for how much, and what is handed out of it. */
import { Share2 } from 'lucide-react';
import type { ReactNode, RefObject } from 'react';
import type { StageHandle } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { Choices } from './Choices.tsx';
import { ClientLink } from './ClientLink.tsx';
import { Film } from './Film.tsx';
import { ModelFiles } from './ModelFiles.tsx';
import { PieceControls } from './PieceControls.tsx';
import { Pictures } from './Pictures.tsx';
import { QuoteSection } from './QuoteSection.tsx';

export function ShowStation({ stage }: { readonly stage: RefObject<StageHandle | null> }) {
  const showDialog = useApp((state) => state.showDialog);
  return (
    <>
      <Section name="The piece" open>
        <PieceControls />
      </Section>
      <Section name="Choices" open>
        <Choices />
      </Section>
      <Section name="For the client">
        <ClientLink />
      </Section>
      <Section name="Quote">
        <QuoteSection />
      </Section>
      <Section name="Picture">
        <Pictures stage={stage} />
      </Section>
      <Section name="Film">
        <Film stage={stage} />
      </Section>
      <Section name="3D files">
        <ModelFiles />
      </Section>
      <Section name="Design and drawings">
        <p className="lede">A link to the design itself, and files for other programs.</p>
        <button type="button" className="button" onClick={() => showDialog('share')}>
          <Share2 /> Share the design …
        </button>
      </Section>
    </>
  );
}

interface SectionProps {
  readonly name: string;
  readonly open?: boolean;
  readonly children: ReactNode;
}

function Section({ name, open = false, children }: SectionProps) {
  return (
    <details className="group show-section" open={open}>
      <summary>
        <h2>{name}</h2>
      </summary>
      {children}
    </details>
  );
}
