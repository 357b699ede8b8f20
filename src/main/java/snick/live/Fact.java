package snick.live;

import java.time.Instant;
import snick.phrase.Phrase;

/**
 * Something that went wrong.
 *
 * @param kind short name
 * @param what what happened last; may hold untrusted text
 * @param count how often
 * @param first when first
 * @param last when last
 */
public record Fact(String kind, Phrase what, long count, Instant first, Instant last) {}
