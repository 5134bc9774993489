/** A dialog over the whole window, open while `shown`: its title, what it holds and the button that closes it. */
import { useEffect, useId, useRef, type ReactNode } from 'react';

interface WindowDialogProps {
  readonly shown: boolean;
  readonly title: string;
  readonly className?: string;
  /** Puts the button beside the title, where it has the focus when the dialog opens. */
  readonly closeFirst?: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

export function WindowDialog(props: WindowDialogProps) {
  const { shown, title, className, closeFirst = false, onClose, children } = props;
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (shown && !dialog.current?.open) dialog.current?.showModal();
    if (!shown) dialog.current?.close();
  }, [shown]);
  const heading = <h2 id={id}>{title}</h2>;
  const close = (
    <button type="submit" className="button">
      Close
    </button>
  );
  return (
    <dialog ref={dialog} className={className} aria-labelledby={id} onClose={onClose}>
      {closeFirst ? (
        <form method="dialog" className="dialog-head">
          {heading}
          {close}
        </form>
      ) : (
        heading
      )}
      {children}
      {!closeFirst && <form method="dialog">{close}</form>}
    </dialog>
  );
}
