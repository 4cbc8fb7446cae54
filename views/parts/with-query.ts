/** An address with the query that a page carries on, such as its levers; the bare address where there is none. */
export const withQuery = (path: string, query: string): string => (query === '' ? path : `${path}?${query}`)
