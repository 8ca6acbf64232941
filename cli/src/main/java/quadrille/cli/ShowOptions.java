package quadrille.cli;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import quadrille.cli.render.RecordJson;
import quadrille.cli.render.RecordText;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ProgressPages;
import quadrille.treatment.record.CourseLog;

/** How a course under way is shown, and where. */
final class ShowOptions {

  @Option(
      names = "--page",
      order = 85,
      split = ",",
      paramLabel = "PAGE",
      description = "With --format html: only progress or patient; may be repeated.")
  private List<ProgressKind> pages = List.of();

  @Option(
      names = "--language",
      order = 86,
      paramLabel = "CODE",
      description = "With --format html: what the patient reads, in en (the default) or de.")
  @Nullable
  private Language language;

  @Mixin private OutputOption output = new OutputOption();

  OutputOption output() {
    return output;
  }

  /**
   * Checks, before anything is recorded, that what is asked for can be shown.
   *
   * @param shown whether the course is shown
   * @param course the course's file, which need not exist yet
   * @param inputs other files that the command reads; null where one was not given
   */
  void check(Format format, boolean shown, String course, @Nullable String... inputs)
      throws StopException {
    if ((!pages.isEmpty() || language != null) && format != Format.HTML) {
      throw StopException.usage("--page and --language: go with --format html.");
    }
    if (!shown && (output.given() || format == Format.HTML)) {
      throw StopException.usage("-o and --format html: go with --show.");
    }
    if (output.toFile() && absolute(output.name()).equals(absolute(course))) {
      throw StopException.usage(course + ": is the course itself and cannot be the output.");
    }
    output.check(course);
    output.check(inputs);
  }

  private static Path absolute(String file) throws StopException {
    return Documents.path(file).toAbsolutePath().normalize();
  }

  /**
   * Writes where a course stands.
   *
   * @param all whether every entry is listed
   */
  void write(CourseLog log, Format format, boolean all, BaseCommand command) throws StopException {
    output.write(
        command.documents(),
        switch (format) {
          case JSON -> RecordJson.of(log);
          case HTML ->
              ProgressPages.of(
                  log,
                  pages.isEmpty() ? EnumSet.allOf(ProgressKind.class) : EnumSet.copyOf(pages),
                  language == null ? Language.english() : language);
          default -> RecordText.of(log, all, command.streams().styled() && !output.toFile());
        });
    if (output.toFile()) {
      command.message("Wrote " + output.name() + ".");
    }
  }
}
