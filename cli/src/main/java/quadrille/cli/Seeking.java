package quadrille.cli;

import java.util.Timer;
import java.util.TimerTask;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.BatchBooker;
import quadrille.plan.planning.Progress;
import quadrille.seeking.SearchStop;

/**
 * One search of a command: its deadline and Ctrl-C end it early, and a terminal sees how it goes
 * on. Close it when the search is over.
 */
final class Seeking implements AutoCloseable {

  private final SearchStop stop = new SearchStop();
  private final ProgressLine line;
  private final Interrupts.Listening listening;
  private @Nullable Timer timer;

  Seeking(Streams streams, DeadlineOption option) {
    this.line = new ProgressLine(streams.err(), streams.lively());
    Double deadline = option.seconds();
    if (deadline != null) {
      timer = new Timer("deadline", true);
      timer.schedule(
          new TimerTask() {
            @Override
            public void run() {
              stop.ask();
            }
          },
          Math.max(1, Math.round(1000 * deadline)));
    }
    this.listening =
        streams
            .interrupts()
            .listen(
                () -> {
                  line.say("Taking the best found so far. Ctrl-C again ends at once.");
                  stop.ask();
                });
    line.begin();
  }

  SearchStop stop() {
    return stop;
  }

  Progress progress() {
    return line;
  }

  /** For a search for bookings. */
  BatchBooker.Watch watch() {
    return new BatchBooker.Watch(stop, line::booking);
  }

  @Override
  public void close() {
    listening.close();
    if (timer != null) {
      timer.cancel();
    }
    line.clear();
  }
}
