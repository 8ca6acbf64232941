package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille promise}. */
@Command(
    name = "promise",
    customSynopsis = "quadrille promise DIARY BOOKING",
    description = {"Promise a visit that is held: from now on it moves only if it must."})
final class PromiseCommand extends VerbCommand {

  @Parameters(
      index = "1",
      paramLabel = "BOOKING",
      description = "The visit's booking, such as K-1042/2.")
  private String booking = "";

  PromiseCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary) {
    return new DeskChange.Promise(booking);
  }
}
