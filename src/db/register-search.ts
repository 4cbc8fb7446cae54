// Typed words as a full-text question: each word must be there, the last one may be a beginning. Nothing typed can break the query.
export const searchWords = (typed: string): string | null => {
  const words = typed.normalize('NFKC').match(/[\p{L}\p{N}]+/gu) ?? []
  if (words.length === 0) return null
  return words.map((word, index) => `"${word}"${index === words.length - 1 ? '*' : ''}`).join(' ')
}
