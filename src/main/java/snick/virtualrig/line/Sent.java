package snick.virtualrig.line;

/**
 * What a virtual rig sent.
 *
 * @param samples samples that got a sequence number, or a line; lost and dropped ones included
 * @param droppedSamples of these, dropped by the device: its reader was too slow, or the converter
 *     had not settled after a change
 * @param trueNanos true time since power-on, ns
 */
public record Sent(long samples, long droppedSamples, long trueNanos) {}
