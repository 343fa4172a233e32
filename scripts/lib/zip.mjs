/**
 * The names of a zip archive's entries, from its central directory (PKWARE APPNOTE 6.3, sections 4.3.12 and
 * 4.3.16). Archives of more than 65,534 entries are refused.
 * @param {Buffer} bytes
 * @returns {string[]}
 */
export function zipNames(bytes) {
  const end = bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  if (end < 0) throw new Error('This is not a zip archive: it has no end record.');
  const count = bytes.readUInt16LE(end + 10);
  if (count === 0xffff) throw new Error('This zip archive has too many entries.');
  const names = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let index = 0; index < count; index++) {
    if (bytes.readUInt32LE(at) !== 0x02014b50) throw new Error("This zip archive's directory is damaged.");
    const nameLength = bytes.readUInt16LE(at + 28);
    names.push(bytes.toString('utf8', at + 46, at + 46 + nameLength));
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return names;
}
