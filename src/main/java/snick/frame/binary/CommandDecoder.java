package snick.frame.binary;

import java.util.Optional;
import java.util.OptionalInt;
import snick.frame.message.Answer;
import snick.frame.message.CommandSink;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
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
        || Wire.u8(plain, 0) < MessageType.FIRST_OF_HOST) {
      droppedFrames++;
      return;
    }
    command(length, sink);
  }

  private void command(int length, CommandSink sink) {
    int code = Wire.u8(plain, 0);
    int tag = length > 1 ? Wire.u8(plain, 1) : 0;
    Optional<MessageType> type = MessageType.ofCode(code);
    if (type.isEmpty()) {
      sink.refused(code, tag, Answer.Result.UNKNOWN_COMMAND);
    } else if (!type.get().fits(length)) {
      sink.refused(code, tag, Answer.Result.MALFORMED);
    } else {
      long value = Wire.unsigned(plain, Wire.TAG_ONLY_BYTES, type.get().valueBytes());
      sink.command(new HostCommand(type.get(), tag, value));
    }
  }
}
