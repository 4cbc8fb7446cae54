// The htmx attributes of a part that is sent and shown again in place, as attributes to spread.

/**
 * Sends the form in place: the answer's part with this id replaces the part on the page. Without script the whole page comes. Of changes
 * made faster than they are answered the last counts: of itself htmx keeps one waiting and drops those after it.
 */
export const refreshes = (
  id: string,
  address: { get: string } | { post: string },
  trigger?: string,
): Record<string, string> => ({
  ...('get' in address ? { 'hx-get': address.get } : { 'hx-post': address.post }),
  'hx-target': `#${id}`,
  'hx-swap': 'outerHTML',
  ...(trigger ? { 'hx-trigger': trigger } : {}),
  ...(trigger?.startsWith('change') ? { 'hx-sync': 'this:replace' } : {}),
})
