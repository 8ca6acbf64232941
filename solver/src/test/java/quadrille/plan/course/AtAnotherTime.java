package quadrille.plan.course;

/** The same at another time. */
public final class AtAnotherTime {

  private AtAnotherTime() {}

  public static Entry entry(Entry entry, int start, int seconds) {
    if (entry instanceof Entry.Look) {
      return new Entry.Look(start, seconds);
    } else if (entry instanceof Entry.OfFrame e) {
      return new Entry.OfFrame(start, seconds, e.task());
    } else if (entry instanceof Entry.SetUp) {
      return new Entry.SetUp(start, seconds);
    } else if (entry instanceof Entry.Inject e) {
      return new Entry.Inject(start, seconds, e.injection());
    } else if (entry instanceof Entry.Wait e) {
      return new Entry.Wait(start, seconds, e.awaited());
    } else if (entry instanceof Entry.ApplyGel e) {
      return new Entry.ApplyGel(start, seconds, e.gel(), e.area(), e.aspect());
    } else if (entry instanceof Entry.AsWritten e) {
      return new Entry.AsWritten(start, seconds, e.kind(), e.text());
    } else if (entry instanceof Entry.ChangeTip e) {
      return new Entry.ChangeTip(start, seconds, e.to());
    } else if (entry instanceof Entry.Reposition e) {
      return new Entry.Reposition(start, seconds, e.area(), e.aspect());
    } else if (entry instanceof Entry.Debride e) {
      return new Entry.Debride(
          start,
          seconds,
          e.area(),
          e.aspect(),
          e.pass(),
          e.insert(),
          e.power(),
          e.needsNumb(),
          e.teeth());
    }
    return new Entry.Close(start, seconds);
  }
}
