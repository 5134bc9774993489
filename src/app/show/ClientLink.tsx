/** The link to the client's page: the choices and what is said of them, without what is the maker's own. */
import { ExternalLink } from 'lucide-react';
import { useMemo } from 'react';
import { makeClientLink } from '../../files/link.ts';
import { useApp } from '../AppContext.ts';
import { offeredWork } from '../choices.ts';
import { addressOf, LinkAddress } from './LinkAddress.tsx';

export function ClientLink() {
  const work = useApp((state) => state.work);
  const newer = useApp((state) => state.document.newer);
  const link = useMemo(() => makeClientLink(offeredWork(work)), [work]);
  if (newer) return <p>A link would lose what this Kerfweave does not know of the design.</p>;
  if (!link.ok) return <p>{link.message}</p>;
  const address = addressOf(link.fragment);
  return (
    <>
      <p className="lede">
        Opens the piece on any phone in one tap, with the choices and what you say of them. Your rates, hours,
        notes, saw and measures are not in it. The answer comes back to you as a link; open it here and the
        choice is recorded.
      </p>
      <LinkAddress key={address} address={address} label="Link for the client" />
      <a className="button" href={address} target="_blank" rel="noreferrer">
        <ExternalLink /> See it as the client does
      </a>
    </>
  );
}
