/**
 * Where a rule's page is. SARIF wants an absolute URI (section 3.49.12), and the project has no address of its own yet: this one
 * is in a domain that RFC 2606 keeps free, and names the page's path in the repository.
 */
const PAGES = 'https://wireloft.example/docs/rules/';

export function rulePage(code: string): string {
  return `${PAGES}${code.split('/').map(encodeURIComponent).join('/')}.md`;
}
