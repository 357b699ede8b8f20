package snick.frame.binary;

import java.util.OptionalInt;
import snick.frame.message.Answer;
import snick.frame.message.CommandSink;
import snick.frame.message.HostCommand;
import snick.frame.message.Wire;

/**
 * Decodes what a device receives, byte by byte as it comes. Frames with a bad CRC, frames of a
 * device's own types (an echo) and frames that are too long are dropped and counted. Not for
 * several threads.
 */
public final class CommandDecoder {
  private final byte[] held = new byte[Wire.MAX_ENCODED_BYTES];
  private final byte[] plain = new byte[Wire.MAX_DECODED_BYTES];
  private int heldBytes;
  private boolean tooLong;
  private long droppedFrames;

  /** Take received bytes; whole commands go to the sink at once. */
  public void accept(byte[] buffer, int offset, int length, CommandSink sink) {
    for (int i = offset; i < offset + length; i++) {
      if (buffer[i] == Wire.DELIMITER) {
        frame(sink);
        heldBytes = 0;
        tooLong = false;
      } else if (heldBytes < held.length) {
        held[heldBytes++] = buffer[i];
      } else {
        tooLong = true;
      }
    }
  }

  /** Frames dropped since this decoder was made. */
  public long droppedFrames() {
    return droppedFrames;
  }

  private void frame(CommandSink sink) {
    if (heldBytes == 0) {
      return;
    }
    OptionalInt decoded = tooLong ? OptionalInt.empty() : Cobs.decode(held, 0, heldBytes, plain);
    int length = decoded.orElse(0) - Wire.CRC_BYTES;
    if (length < 1
        || Crc16.of(plain, 0, length) != Wire.u16(plain, length)
        || Wire.u8(plain, 0) < Wire.FIRST_HOST_TYPE) {
      droppedFrames++;
      return;
    }
    command(length, sink);
  }

  private void command(int length, CommandSink sink) {
    int type = Wire.u8(plain, 0);
    int tag = length > 1 ? Wire.u8(plain, 1) : 0;
    int expected = bytesOf(type);
    if (expected == 0) {
      sink.refused(type, tag, Answer.Result.UNKNOWN_COMMAND);
    } else if (length != expected) {
      sink.refused(type, tag, Answer.Result.MALFORMED);
    } else {
      sink.command(command(type, tag));
    }
  }

  private HostCommand command(int type, int tag) {
    return switch (type) {
      case Wire.ASK_HELLO -> new HostCommand.AskHello(tag);
      case Wire.START -> new HostCommand.Start(tag);
      case Wire.STOP -> new HostCommand.Stop(tag);
      case Wire.SET_RATE -> new HostCommand.SetRate(tag, Wire.u32(plain, 2));
      case Wire.SET_GAIN -> new HostCommand.SetGain(tag, Wire.u16(plain, 2));
      default -> new HostCommand.Ping(tag, Wire.u32(plain, 2));
    };
  }

  private static int bytesOf(int type) {
    return switch (type) {
      case Wire.ASK_HELLO, Wire.START, Wire.STOP -> Wire.TAG_ONLY_BYTES;
      case Wire.SET_RATE -> Wire.SET_RATE_BYTES;
      case Wire.SET_GAIN -> Wire.SET_GAIN_BYTES;
      case Wire.PING -> Wire.PING_BYTES;
      default -> 0;
    };
  }
}
