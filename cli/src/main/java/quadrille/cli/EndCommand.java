package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille end}. */
@Command(
    name = "end",
    customSynopsis = "quadrille end DIARY CASE --because WHY [OPTION ...]",
    description = {
      "End a course: its visits to come are called off, and it asks for nothing more.",
      "",
      "A new plan of the case that is booked later carries it on."
    })
final class EndCommand extends VerbCommand {

  @Parameters(index = "1", paramLabel = "CASE", description = "The course's case.")
  private String caseName = "";

  EndCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean needsReason() {
    return true;
  }

  @Override
  DeskChange change(Diary diary) {
    return new DeskChange.EndCourse(caseName);
  }
}
