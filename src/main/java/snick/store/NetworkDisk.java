package snick.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Whether a store lies on another machine's disk. SQLite's write-ahead log has its index in memory
 * that only programs of one machine share (sqlite.org/wal.html): two machines that open one store
 * spoil it.
 */
public final class NetworkDisk {
  /** As the system calls them; FUSE adds what is behind it. */
  private static final Pattern TYPE =
      Pattern.compile(
          "(nfs\\d?|cifs|smb\\w*|afpfs|webdav|9p|afs|ceph|lustre|glusterfs|gpfs|ncpfs|virtiofs"
              + "|fuse\\.(?!portal$|gvfsd|lxcfs$|ntfs|exfat|mergerfs$|encfs$|gocryptfs$).+)");

  private NetworkDisk() {}

  /**
   * What to know before recording into {@code directory}; empty if it is on a disk of one's own.
   */
  public static Optional<String> warning(Path directory) {
    try {
      return warning(directory, Files.getFileStore(directory).type());
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  static Optional<String> warning(Path directory, String type) {
    return TYPE.matcher(type).matches()
        ? Optional.of(
            directory
                + " is on a network file system ("
                + type
                + "): let no other machine open this store, two at once spoil it; better record to"
                + " a disk of this machine (--data DIRECTORY) and copy: snick store backup FILE")
        : Optional.empty();
  }
}
