package snick.cli;

import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.Tree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;

/** The texts in Java sources: string literals, joined where {@code +} joins them. */
final class SourceTexts {
  /** Stands for what is only known when the program runs. */
  private static final String SOMETHING = "X";

  private SourceTexts() {}

  /** One text and the file it stands in. */
  record Text(Path file, String words) {}

  static List<Text> of(List<Path> sources) throws IOException {
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    List<Text> texts = new ArrayList<>();
    try (StandardJavaFileManager files =
        compiler.getStandardFileManager(null, Locale.ROOT, StandardCharsets.UTF_8)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null,
                  files,
                  null,
                  List.of("-proc:none"),
                  null,
                  files.getJavaFileObjectsFromPaths(sources));
      for (CompilationUnitTree unit : task.parse()) {
        unit.accept(new Collector(Path.of(unit.getSourceFile().toUri()), texts), null);
      }
    }
    return texts;
  }

  private static final class Collector extends TreeScanner<Void, Void> {
    private final Path file;
    private final List<Text> texts;

    private Collector(Path file, List<Text> texts) {
      this.file = file;
      this.texts = texts;
    }

    @Override
    public Void visitBinary(BinaryTree node, Void nothing) {
      if (node.getKind() != Tree.Kind.PLUS) {
        return super.visitBinary(node, null);
      }
      String words = joined(node);
      if (!words.replace(SOMETHING, "").isEmpty()) {
        texts.add(new Text(file, words));
      }
      return null;
    }

    @Override
    public Void visitLiteral(LiteralTree node, Void nothing) {
      if (node.getValue() instanceof String words) {
        texts.add(new Text(file, words));
      }
      return null;
    }

    private String joined(Tree tree) {
      if (tree instanceof BinaryTree sum && sum.getKind() == Tree.Kind.PLUS) {
        return joined(sum.getLeftOperand()) + joined(sum.getRightOperand());
      }
      if (tree instanceof LiteralTree literal) {
        return String.valueOf(literal.getValue());
      }
      scan(tree, null);
      return SOMETHING;
    }
  }
}
