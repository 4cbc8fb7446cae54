// What work was for, as one text that a form can carry: `enterprise:honey`, `herd:sheep`, `batch:…`, `market:saturday` or `overhead`.

export const subjectKinds = ['enterprise', 'herd', 'batch', 'market', 'overhead'] as const
export type SubjectKind = (typeof subjectKinds)[number]

/** The farm as a whole has no id. */
export interface Subject {
  kind: SubjectKind
  id: string
}

export const subjectText = ({ kind, id }: Subject): string => (kind === 'overhead' ? kind : `${kind}:${id}`)

export const parseSubject = (text: string): Subject | null => {
  if (text === 'overhead') return { kind: 'overhead', id: '' }
  const at = text.indexOf(':')
  const kind = subjectKinds.find((one) => one === text.slice(0, at))
  const id = text.slice(at + 1)
  return kind && kind !== 'overhead' && id !== '' ? { kind, id } : null
}
