/** The page inside a preview panel: it loads our one script and our one sheet of styles, and nothing else. */
import { Uri, type Webview, type WebviewOptions } from 'vscode';

const scriptFolder = (extension: Uri): Uri => Uri.joinPath(extension, 'dist');
const styleFolder = (extension: Uri): Uri => Uri.joinPath(extension, 'client', 'media');

export const pageOptions = (extension: Uri): WebviewOptions => ({
  enableScripts: true,
  enableForms: false,
  localResourceRoots: [scriptFolder(extension), styleFolder(extension)],
});

/** `lesson` comes back from the page as part of its state, so that the editor can restore the panel after a reload. */
export function pageOf(webview: Webview, extension: Uri, lesson: Uri): string {
  const address = (folder: Uri, name: string): string => `${webview.asWebviewUri(Uri.joinPath(folder, name))}`;
  const nonce = newNonce();
  // The thread of the sound is loaded from a blob that our script makes of its own text: such a thread takes no nonce.
  const policy = `default-src 'none'; script-src 'nonce-${nonce}' blob:; style-src ${webview.cspSource}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Preview</title>
<link rel="stylesheet" href="${address(styleFolder(extension), 'preview.css')}">
</head>
<body data-transport="panel" data-uri="${escaped(`${lesson}`)}">
<main id="preview"></main>
<script nonce="${nonce}" src="${address(scriptFolder(extension), 'preview.js')}"></script>
</body>
</html>`;
}

const NONCE_BYTES = 18;

const newNonce = (): string =>
  [...crypto.getRandomValues(new Uint8Array(NONCE_BYTES))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => SIGNS[sign]);
