/** Of the library what reads one picture; imported at the moment of need by its own name, it would bring all that it exports. */
export { decodeQR } from 'qr/decode.js';
