package snick.exchange.read;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import snick.exchange.json.RefusedPackage;

/** A package as a folder. Other files in it are never opened. */
record FolderSource(Path folder) implements PackageSource {
  @Override
  public String name() {
    return folder.toAbsolutePath().normalize().getFileName().toString();
  }

  @Override
  public InputStream open(String file) throws IOException {
    Path path = folder.resolve(file);
    if (!Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)) {
      throw new RefusedPackage(
          Files.isSymbolicLink(path)
              ? path + " is a link; a package has plain files: copy the file itself"
              : "no file " + path + "; is this the folder of a package?");
    }
    return Files.newInputStream(path, LinkOption.NOFOLLOW_LINKS);
  }

  @Override
  public void close() {}
}
