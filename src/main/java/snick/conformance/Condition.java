package snick.conformance;

/** What firmware-protocol.md, version 1, asks of a device, as far as a host can see it. */
public enum Condition {
  HELLO("hello", "says hello when asked, then answers with its protocol version"),
  PING("ping", "repeats the token; its clock goes on"),
  ANSWER_TIME("answer-time", "answers within 100 ms"),
  ANSWER_ONCE("answer-once", "answers every command exactly once, with its tag"),
  BURST("burst", "answers commands that come without a pause, in order"),
  STATUS("status", "sends status every second, 0.5 s to 1.5 s"),
  SEQUENCE("sequence", "numbers samples without a hole that it does not count as dropped"),
  BATCH("batch", "lets no sample wait longer than 25 ms for its batch"),
  SPACING("spacing", "stamps samples evenly, within 20 % of the nominal rate"),
  STOP("stop", "sends the batch begun, the answer, and then no samples"),
  START("start", "streams on, from the number that it answered"),
  REPEAT("repeat", "accepts start while streaming and stop while idle"),
  IN_FORCE("in-force", "accepts the rate and gain in force without hello"),
  REFUSAL("refusal", "refuses a rate and a gain it does not have, and says what is in force"),
  CHANGE("change", "says hello with a new gain or rate before it answers"),
  RATE(
      "rate",
      "takes the nearest rate it has within 10 % of the one asked; samples then come at it"),
  UNKNOWN("unknown", "answers an unknown type UNKNOWN_COMMAND"),
  MALFORMED("malformed", "answers a command of a wrong length MALFORMED"),
  DAMAGE("damage", "answers no frame with a bad CRC and no echo"),
  GARBAGE("garbage", "answers the first command after garbage"),
  CLOCK("clock", "its clock keeps within 1 % of the host's"),
  FRAMES("frames", "sends only whole frames with a good CRC");

  private final String id;
  private final String words;

  Condition(String id, String words) {
    this.id = id;
    this.words = words;
  }

  /** Short name, for programs and for the document. */
  public String id() {
    return id;
  }

  /** What a device does that meets it. */
  public String words() {
    return words;
  }
}
