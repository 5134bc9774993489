/** The blank's section; it lives with the document, whose limits (web, outline) depend on it. */
export * from '../design/section.ts';
