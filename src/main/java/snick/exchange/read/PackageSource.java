package snick.exchange.read;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import snick.exchange.json.RefusedPackage;

/** The files of a package, by their names alone: nothing in it says where anything is written. */
interface PackageSource extends Closeable {
  /** What the package is called, for messages and provenance. */
  String name();

  /**
   * The file of a name, from its beginning.
   *
   * @throws RefusedPackage if it is missing or no plain file
   */
  InputStream open(String file) throws IOException;
}
