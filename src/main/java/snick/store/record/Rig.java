package snick.store.record;

import java.time.Instant;

/**
 * A device that was recorded.
 *
 * @param deviceId its identity, see {@link Recording#deviceId}
 * @param firmware what it last said about its firmware, untrusted text
 * @param firstSeen when its first recording began
 * @param lastSeen when its last recording began
 */
public record Rig(String deviceId, String firmware, Instant firstSeen, Instant lastSeen) {}
