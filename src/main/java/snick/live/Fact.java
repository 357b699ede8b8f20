package snick.live;

import java.time.Instant;

/**
 * Something that went wrong.
 *
 * @param kind short name
 * @param text what happened last, for people; may hold untrusted text
 * @param count how often
 * @param first when first
 * @param last when last
 */
public record Fact(String kind, String text, long count, Instant first, Instant last) {}
