package quadrille.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
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
      "It cannot be undone. Call off first what is to come, and export it, so that",
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
  String[] beside() {
    return files.toArray(String[]::new);
  }

  @Override
  DeskChange change(Diary diary) throws StopException {
    for (String file : files) {
      try {
        streams().files().look(Documents.path(file));
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
