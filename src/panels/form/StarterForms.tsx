/** Starter forms as silhouettes, fitted to the blank at hand. */
import { useMemo } from 'react';
import type { Design, Form } from '../../design/document.ts';
import { setForm } from '../../design/formEdits.ts';
import { FORM_KINDS, FORM_NAMES, formFor } from '../../design/forms.ts';
import { useBench } from '../bench.ts';
import { silhouettePath } from './outlinePath.ts';

/** A new form keeps the finish; holes belong to the form that they were drilled in. */
function withFinishOf(design: Design, form: Form): Form {
  const finish = design.form?.finish;
  return finish ? { ...form, finish } : form;
}

const WIDTH = 64;
const HEIGHT = 56;

export function StarterForms({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const { blank } = design;
  const web_mm = Math.max(0, ...design.sets.map((set) => set.web_mm));
  const forms = useMemo(
    () => FORM_KINDS.map((kind) => ({ kind, form: formFor(kind, blank, web_mm) })),
    [blank, web_mm],
  );
  return (
    <section className="group flush-top" aria-label="Starter forms">
      <h2>Start from a form</h2>
      <ul className="starter-forms">
        {forms.map(({ kind, form }) => {
          const reach = Math.max(...form.outline.map((point) => point.r_mm));
          const foot = Math.min(...form.outline.map((point) => point.z_mm));
          const head = Math.max(...form.outline.map((point) => point.z_mm));
          const pxPerMm = Math.min(WIDTH / 2 / reach, HEIGHT / (head - foot));
          const scale = { pxPerMm, foot_px: HEIGHT / 2 + ((head + foot) / 2) * pxPerMm };
          return (
            <li key={kind}>
              <button
                type="button"
                onClick={() =>
                  edit(`form: ${FORM_NAMES[kind].toLowerCase()}`, (current) =>
                    setForm(current, withFinishOf(current, form)),
                  )
                }
              >
                <svg viewBox={`${-WIDTH / 2} 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
                  <path d={silhouettePath(form, scale)} />
                </svg>
                {FORM_NAMES[kind]}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
