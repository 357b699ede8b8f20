package snick.store.record;

import java.time.Instant;

/**
 * Something that speaks for or against a rig, as a document.
 *
 * @param deviceId rig that was examined
 * @param kind what was done, for example {@code dynamic_check}
 * @param at when
 * @param document figures as their maker wrote them down
 */
public record Evidence(String deviceId, String kind, Instant at, String document) {}
