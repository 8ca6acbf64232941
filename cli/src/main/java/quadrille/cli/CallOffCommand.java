package quadrille.cli;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import quadrille.cli.render.DeskWords;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.DeskChange;
import quadrille.diary.desk.FreedTime;
import quadrille.document.InvalidDocumentException;

/** {@code quadrille call-off}. */
@Command(
    name = "call-off",
    customSynopsis = "quadrille call-off DIARY BOOKING --because WHY [OPTION ...]",
    description = {
      "Call a visit off: its time is free, and no other is sought.",
      "",
      "rebook --cancelled looks for a new time at once. With --because patient-missed,",
      "the visit is missed and not called off."
    })
final class CallOffCommand extends BookingVerbCommand {

  @Option(
      names = "--later",
      order = 10,
      description = "Also the later visits of its course, which cannot come before it.")
  private boolean later;

  @Option(
      names = "--sooner",
      order = 11,
      description = "Say who could come in the time that is free then; they are to be asked.")
  private boolean sooner;

  CallOffCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean needsReason() {
    return true;
  }

  /** Who gains by the time that is free now; nobody is moved. */
  @Override
  void after(ChangeAnswer.Changed changed) throws InvalidDocumentException {
    if (!sooner) {
      return;
    }
    List<FreedTime.Sooner> gain =
        FreedTime.of(
            changed.read().with(changed.after()), changed.entry(), streams().clock().instant());
    message(
        gain.isEmpty()
            ? "Nobody could come in the time that is free now."
            : "Could come in the time that is free now; ask first:");
    gain.forEach(one -> message(DeskWords.sooner(one, changed.after())));
  }

  @Override
  DeskChange change(Diary diary, String booking) {
    return new DeskChange.CallOff(booking, later);
  }
}
