package snick.virtualrig;

/**
 * What a virtual rig sent.
 *
 * @param samples samples put into frames or lines, lost and dropped ones included
 * @param droppedSamples of these, dropped by the device because its reader was too slow
 * @param trueNanos true time since power-on, ns
 */
public record Sent(long samples, long droppedSamples, long trueNanos) {}
