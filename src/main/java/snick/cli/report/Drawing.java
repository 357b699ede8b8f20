package snick.cli.report;

import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.report.plot.Picture;
import snick.store.StoreReader;

/** A command that draws one picture of what is stored. */
abstract class Drawing implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private DataDirectory data;
  @Mixin private PictureFile file;

  /** What is to be drawn. */
  abstract Picture picture(StoreReader store);

  final DataDirectory data() {
    return data;
  }

  @Override
  public final Integer call() {
    return file.draw(spec, data, this::picture);
  }
}
