/** Where the binary parameters and departure functions were published. */
export const LEMMON_2004 =
  'Eric W. Lemmon and Richard T. Jacobsen, Equations of State for Mixtures of R-32, R-125, R-134a, R-143a, and R-152a, J. Phys. Chem. Ref. Data, 33, 593-620, 2004, 10.1063/1.1649997';
export const BELL_2023 =
  'Ian H. Bell, Mixture Model for Refrigerant Pairs R-32/1234yf, R-32/1234ze(E), R-1234ze(E)/227ea, R-1234yf/152a, and R-125/1234yf, J. Phys. Chem. Ref. Data, 52, 013101, 2023, 10.1063/5.0135368';
export const BELL_UPDATE =
  'Ian H. Bell, Modeling Mixtures Containing Refrigerants: Updated Interaction Parameters, J. Chem. Eng. Data, 2025, 10.1021/acs.jced.4c00699';
export const BELL_2016 =
  'Bell, Ian H. and Lemmon, Eric W., Automatic fitting of binary interaction parameters for multi-fluid Helmholtz-energy-explicit mixture models, J. Chem. Eng. Data, 61, 2016, 10.1021/acs.jced.6b00257';
export const BELL_2022 =
  'Ian H. Bell, Mixture Models for Refrigerants R-1234yf/134a, R-1234yf/1234ze(E), and R-134a/1234ze(E) and Interim Models for R-125/1234yf, R-1234ze(E)/227ea, and R-1234yf/152a, J. Phys. Chem. Ref. Data, 51, 013103, 2022, 10.1063/5.0086060';
