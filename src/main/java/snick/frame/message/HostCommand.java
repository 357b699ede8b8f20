package snick.frame.message;

/** What the host asks of a device. Each carries a tag, 0 to 255, that the answer repeats. */
public sealed interface HostCommand {
  /** Tag that the answer repeats, 0 to 255. */
  int tag();

  /** Ask for hello. The device sends hello, then its answer. */
  record AskHello(int tag) implements HostCommand {
    public AskHello {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
    }
  }

  /** Begin to send samples. */
  record Start(int tag) implements HostCommand {
    public Start {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
    }
  }

  /** Stop sending samples. */
  record Stop(int tag) implements HostCommand {
    public Stop {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
    }
  }

  /**
   * Set the output rate.
   *
   * @param milliHertz mHz, any 32 bits on the wire; devices have 1 to 100 000 000
   */
  record SetRate(int tag, long milliHertz) implements HostCommand {
    public SetRate {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
      Limits.check("rate in mHz", milliHertz, 0, Limits.MAX_U32);
    }
  }

  /**
   * Set the amplifier's gain.
   *
   * @param gain any 16 bits on the wire; devices have 1 to 65535
   */
  record SetGain(int tag, int gain) implements HostCommand {
    public SetGain {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
      Limits.check("gain", gain, 0, Limits.MAX_U16);
    }
  }

  /**
   * Ask for the token back with the device's clock.
   *
   * @param token any 32 bits, unsigned
   */
  record Ping(int tag, long token) implements HostCommand {
    public Ping {
      Limits.check("tag", tag, 0, Limits.MAX_U8);
      Limits.check("token", token, 0, Limits.MAX_U32);
    }
  }
}
