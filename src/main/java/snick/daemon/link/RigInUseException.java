package snick.daemon.link;

/** Another recorder has this rig. */
public final class RigInUseException extends Exception {
  private static final long serialVersionUID = 1L;

  RigInUseException(String rig, String holderPid) {
    this(rig, holderPid, null);
  }

  RigInUseException(String rig, String holderPid, Throwable cause) {
    super(
        rig
            + " is already being recorded by process "
            + (holderPid.isEmpty() ? "(unknown)" : holderPid)
            + "; stop that one first (kill "
            + (holderPid.isEmpty() ? "PID" : holderPid)
            + "), or watch its page",
        cause);
  }
}
