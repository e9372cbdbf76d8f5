/** Where the bytes of a column stand in the archive: a name for each row, written as SQL over its own columns. */
export const PICTURES: Readonly<Record<string, string>> = {
  'KeptPicture.bytes': `'pictures/' || "hash" || '.jpg'`,
  'StoredFile.thumbnail': `'pictures/small/' || "sha256" || '.' || replace(split_part("mime", '/', 2), 'jpeg', 'jpg')`,
  'Visit.signaturePng': `'signatures/' || "id" || '.png'`,
  'ShopSettings.logoPng': `'shop/picture.png'`,
};
