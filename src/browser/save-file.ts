/** Hands a text to the browser's own way of saving files. */
export function saveFile(name: string, type: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken it when the task is over.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}
