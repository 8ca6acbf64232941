package quadrille.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.DeskChange;
import quadrille.document.Expected;

/** {@code quadrille forget}. */
@Command(
    name = "forget",
    customSynopsis = "quadrille forget DIARY CASE [OPTION ...]",
    description = {
      "Take a patient out of the diary and its journal, and out of the files named.",
      "",
      "It cannot be undone. End the course first, and export it, so that",
      "other calendars lose it too; what was exported before is not found here."
    })
final class ForgetCommand extends VerbCommand {

  @Parameters(index = "1", paramLabel = "CASE", description = "The course's case.")
  private String caseName = "";

  @Option(
      names = "--file",
      order = 10,
      paramLabel = "FILE",
      description =
          "A file of this patient alone that is taken away too: log, chart, draft; may be"
              + " repeated.")
  private List<String> files = List.of();

  ForgetCommand(Streams streams) {
    super(streams);
  }

  @Override
  List<String> beside() {
    return files;
  }

  @Override
  DeskChange change(Diary diary) throws StopException {
    Set<Path> met = new LinkedHashSet<>();
    for (String file : files) {
      try {
        streams().files().look(Documents.path(file));
        if (!met.add(Documents.path(file).toRealPath())) {
          throw StopException.usage("--file " + file + ": is named twice.");
        }
      } catch (IOException e) {
        throw StopException.file(file + ": cannot be read: " + Documents.reason(e));
      }
    }
    return new DeskChange.Forget(caseName);
  }

  @Override
  void after(ChangeAnswer.Changed changed) throws StopException {
    List<String> left = new ArrayList<>();
    for (String file : files) {
      try {
        streams().files().delete(Documents.path(file), Expected.ANYTHING);
        message("Took away " + file + ".");
      } catch (IOException e) {
        left.add(file + ": cannot be taken away: " + Documents.reason(e));
      }
    }
    if (!left.isEmpty()) {
      throw StopException.file(String.join("\n", left));
    }
  }
}
