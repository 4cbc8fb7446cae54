// Files dropped anywhere on a page with a field for several go into that field, and its form is sent; the field itself works without.
const dropField = () => document.querySelector('input[type=file][multiple]')
const carriesFiles = (event) => event.dataTransfer?.types.includes('Files') && dropField() !== null

addEventListener('DOMContentLoaded', () => {
  const field = dropField()
  const hint = field && document.getElementById(field.getAttribute('aria-describedby')?.split(' ')[0])
  if (hint) hint.append(' Or drop them anywhere on this page.')
})

document.addEventListener('dragover', (event) => {
  if (!carriesFiles(event)) return
  event.preventDefault()
  event.dataTransfer.dropEffect = 'copy'
  dropField().closest('.field').classList.add('drop-here')
})

document.addEventListener('dragleave', (event) => {
  if (event.relatedTarget === null) dropField()?.closest('.field').classList.remove('drop-here')
})

document.addEventListener('drop', (event) => {
  if (!carriesFiles(event)) return
  event.preventDefault()
  const field = dropField()
  field.closest('.field').classList.remove('drop-here')
  // Folders and pictures out of a page bring no file.
  if (event.dataTransfer.files.length === 0) return
  field.files = event.dataTransfer.files
  field.form.requestSubmit()
})
