package snick.virtualrig.device;

import snick.frame.message.Status;
import snick.virtualrig.script.Fault;

/**
 * Who the device is since its last start.
 *
 * @param deviceId 64-bit identity
 * @param protocolVersion version of the wire protocol that it says it speaks
 * @param resetCause why it last started
 */
public record DeviceIdentity(long deviceId, int protocolVersion, Status.ResetCause resetCause) {
  public DeviceIdentity after(Fault.OfDevice fault) {
    if (fault instanceof Fault.Reset reset) {
      return new DeviceIdentity(deviceId, protocolVersion, reset.cause());
    }
    if (fault instanceof Fault.AnotherDevice other) {
      return new DeviceIdentity(other.deviceId(), protocolVersion, Status.ResetCause.POWER_ON);
    }
    int version = ((Fault.NewerProtocol) fault).version();
    return new DeviceIdentity(deviceId, version, Status.ResetCause.POWER_ON);
  }
}
