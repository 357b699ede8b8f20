package snick.view.bench;

/**
 * A serial port of this machine.
 *
 * @param path where it is
 * @param description what the system calls it, may be empty
 */
public record PortHere(String path, String description) {}
