/** Makes the few elements of the page that are not drawn by the server. All words go in as text. */

export function append(parent: HTMLElement, name: string, className: string, words = ''): HTMLElement {
  const element = document.createElement(name);
  element.className = className;
  element.textContent = words;
  parent.append(element);
  return element;
}

export function button(parent: HTMLElement, className: string, words: string, press: () => void): HTMLButtonElement {
  const made = append(parent, 'button', className, words) as HTMLButtonElement;
  made.type = 'button';
  made.addEventListener('click', press);
  return made;
}
