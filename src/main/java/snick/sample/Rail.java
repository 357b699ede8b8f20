package snick.sample;

/** The end of the converter's range at which it stands when the input is outside its range. */
public enum Rail {
  /** The lowest code, 0x800000 for 24 bits. */
  LOW,
  /** The highest code, 0x7FFFFF for 24 bits. */
  HIGH
}
