package snick.virtualrig.device;

import snick.frame.message.Status;

/**
 * Who the device is since its last start.
 *
 * @param deviceId 64-bit identity
 * @param protocolVersion version of the wire protocol that it says it speaks
 * @param resetCause why it last started
 */
public record DeviceIdentity(long deviceId, int protocolVersion, Status.ResetCause resetCause) {}
