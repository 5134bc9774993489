/** A link that is copied, or read off the screen as a code. */
import { Check, Copy, QrCode as QrIcon, Send } from 'lucide-react';
import { useRef, useState } from 'react';
import type { QrCode } from '../../files/qrCode.ts';
import { useApp } from '../AppContext.ts';
import '../keep.css';

/** The address of this app with a fragment. */
export function addressOf(fragment: string): string {
  return `${window.location.origin}${window.location.pathname}#${fragment}`;
}

const LOCAL = /^(localhost|127\.|\[::1\])/;

export interface LinkAddressProps {
  readonly address: string;
  /** What the link is to. */
  readonly label: string;
}

export function LinkAddress({ address, label }: LinkAddressProps) {
  const design = useApp((state) => state.design);
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState(false);
  // Said here and not at the foot of the window, which an open dialog lies over.
  const [word, setWord] = useState('');
  const [code, setCode] = useState<QrCode | 'too long' | null>(null);
  const sends = 'share' in navigator;
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(address);
      setCopied(true);
      setWord('');
    } catch {
      // Not allowed to write there, or no clipboard over plain http: the maker can.
      field.current?.select();
      setWord('This browser does not let the page copy. The link is selected: copy it from there.');
    }
  };
  const send = async () => {
    try {
      await navigator.share({ title: design.name, url: address });
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
      setWord('It was not sent. Copy the link instead.');
    }
  };
  const showCode = async () => {
    const { qrCodeOf } = await import('../../files/qrCode.ts');
    setCode(qrCodeOf(address) ?? 'too long');
  };
  return (
    <>
      <div className="share-link">
        <input
          ref={field}
          readOnly
          value={address}
          aria-label={label}
          onFocus={(event) => event.currentTarget.select()}
        />
        <button type="button" className={sends ? 'button' : 'button primary'} onClick={() => void copy()}>
          {copied ? <Check /> : <Copy />} {copied ? 'Copied' : 'Copy link'}
        </button>
      </div>
      <output className="share-word">{word}</output>
      {LOCAL.test(window.location.hostname) && (
        <p className="kept-note">
          This address is that of this device. For other devices, open Kerfweave at an address that they can
          reach, and make the link there.
        </p>
      )}
      <div className="show-toggles">
        {sends && (
          <button type="button" className="button primary" onClick={() => void send()}>
            <Send /> Send the link …
          </button>
        )}
        {code === null && (
          <button type="button" className="button" onClick={() => void showCode()}>
            <QrIcon /> QR code
          </button>
        )}
      </div>
      {code === null ? null : code === 'too long' ? (
        <p>The link is too long for a code that a phone can read.</p>
      ) : (
        <svg
          className="share-code"
          role="img"
          aria-label="The link as a QR code"
          viewBox={`0 0 ${code.size} ${code.size}`}
          shapeRendering="crispEdges"
        >
          <path d={code.path} fill="#000" />
        </svg>
      )}
    </>
  );
}
