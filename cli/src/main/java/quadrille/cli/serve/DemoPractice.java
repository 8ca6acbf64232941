package quadrille.cli.serve;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A practice of invented patients, in a temporary folder. */
public final class DemoPractice {

  private static final List<String> CHARTS =
      List.of(
          "typical.json",
          "typical-after.json",
          "moderate.csv",
          "mild-one-visit.json",
          "implants-both-sides.json",
          "unprobed.json",
          "weight-missing.json",
          "heart-disease.json",
          "universal-numbering.json");

  private DemoPractice() {}

  /** Makes the folder. */
  public static Path make() throws IOException {
    Path root = Files.createTempDirectory("quadrille-demo-");
    Path charts = Files.createDirectories(root.resolve("charts"));
    for (String chart : CHARTS) {
      try (@Nullable InputStream in = DemoPractice.class.getResourceAsStream("demo/" + chart)) {
        if (in == null) {
          throw new IOException("the program lacks its demo practice");
        }
        Files.copy(in, charts.resolve(chart));
      }
    }
    return root;
  }

  /** Takes the folder away, with what was tried in it. */
  public static void remove(Path root) throws IOException {
    Files.walkFileTree(
        root,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes is) throws IOException {
            Files.delete(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path folder, @Nullable IOException wrong)
              throws IOException {
            Files.delete(folder);
            return FileVisitResult.CONTINUE;
          }
        });
  }
}
