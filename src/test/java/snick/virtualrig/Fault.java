package snick.virtualrig;

import java.util.Objects;
import snick.frame.message.Status;
import snick.virtualrig.settings.SettingRange;

/** What can go wrong between cell and host. Plain data; durations in s of the rig's own time. */
public sealed interface Fault {
  /** Faults of the line. */
  sealed interface OfLine extends Fault permits BitErrors, LostBytes, Silence, Babble, HangUp {}

  /** The converter stands at the end of its range, the upper one if {@code high}. */
  record Overrange(double seconds, boolean high) implements Fault {
    public Overrange {
      SettingRange.check("overrange, s,", seconds, 0, 1e6);
    }
  }

  /** The converter repeats its last reading. */
  record Stuck(double seconds) implements Fault {
    public Stuck {
      SettingRange.check("stuck, s,", seconds, 0, 1e6);
    }
  }

  /** The converter gives nothing. */
  record ConverterLost(double seconds) implements Fault {
    public ConverterLost {
      SettingRange.check("converter lost, s,", seconds, 0, 1e6);
    }
  }

  /** The device starts again; its counters begin anew. Half a frame is left behind if asked. */
  record Reset(Status.ResetCause cause, boolean midFrame) implements Fault {
    public Reset {
      Objects.requireNonNull(cause);
    }
  }

  /** Another device is plugged into the same place. */
  record AnotherDevice(long deviceId) implements Fault {}

  /** The device starts again with firmware that speaks another version of the protocol. */
  record NewerProtocol(int version) implements Fault {
    public NewerProtocol {
      SettingRange.check("protocol version", version, 1, 255);
    }
  }

  /** From now on each bit is turned over with this probability; 0 ends it. */
  record BitErrors(double probability) implements OfLine {
    public BitErrors {
      SettingRange.check("probability", probability, 0, 1);
    }
  }

  /** From now on each byte is lost with this probability; 0 ends it. */
  record LostBytes(double probability) implements OfLine {
    public LostBytes {
      SettingRange.check("probability", probability, 0, 1);
    }
  }

  /** The device sends nothing, and what it would have sent is lost. */
  record Silence(double seconds) implements OfLine {
    public Silence {
      SettingRange.check("silence, s,", seconds, 0, 1e6);
    }
  }

  /** Random bytes come instead of frames, as many as there would have been or more. */
  record Babble(double seconds) implements OfLine {
    public Babble {
      SettingRange.check("babble, s,", seconds, 0, 1e6);
    }
  }

  /** The cable is pulled: the port is gone, and comes back under the same link after this time. */
  record HangUp(double seconds) implements OfLine {
    public HangUp {
      SettingRange.check("hang-up, s,", seconds, 0, 1e6);
    }
  }
}
