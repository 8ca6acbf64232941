package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille done}. */
@Command(
    name = "done",
    customSynopsis = "quadrille done DIARY BOOKING",
    description = {"Say that a visit took place."})
final class DoneCommand extends VerbCommand {

  @Parameters(
      index = "1",
      paramLabel = "BOOKING",
      description = "The visit's booking, such as K-1042/2.")
  private String booking = "";

  DoneCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary) {
    return new DeskChange.Done(booking);
  }
}
