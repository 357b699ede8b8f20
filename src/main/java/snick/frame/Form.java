package snick.frame;

/** How a device writes its readings. */
public enum Form {
  /** Frames with sequence number and CRC. */
  BINARY,
  /** One reading a line. */
  TEXT
}
