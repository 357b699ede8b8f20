package snick.daemon;

import java.time.Instant;
import java.util.Optional;
import snick.frame.Form;
import snick.frame.text.Columns;
import snick.phrase.Phrase;
import snick.port.PortAddress;
import snick.quantity.SampleRate;
import snick.store.KeptColumns;
import snick.store.record.Recording;

/**
 * Says what a rig's text was taken for, where that is doubtful, and what cannot be read. On the
 * reader's thread.
 */
final class TextDoubts {
  private final PortAddress address;
  private final Pipeline pipeline;
  private final Surroundings around;
  private final PlausibilityWatch plausibility;

  TextDoubts(PortAddress address, Pipeline pipeline, SampleRate assumedRate, Surroundings around) {
    this.address = address;
    this.pipeline = pipeline;
    this.around = around;
    this.plausibility = new PlausibilityWatch(assumedRate.hertz());
  }

  /** The link was opened again. */
  void reopened() {
    plausibility.reopened();
  }

  /** What is read from text may not be what was sent. */
  void look(long arrivalNanos) {
    if (address.live() && pipeline.form().equals(Optional.of(Form.TEXT))) {
      plausibility
          .look(arrivalNanos, pipeline.stream().lastNanos(), pipeline.stream().facts())
          .forEach(
              doubt ->
                  around.report(
                      "doubtful",
                      Phrase.of("fault.at_port", "port", address.text(), "what", doubt)));
    }
  }

  /** Why bytes come but no readings. */
  String notUnderstood() {
    return refused()
        .orElseGet(
            () ->
                address.text()
                    + " sends bytes but no readings that are understood: is the bit rate right"
                    + " (--baud), is the converter connected?");
  }

  /** Why a stream that is over gave no reading; empty if it gave one. */
  Optional<String> nothingRead() {
    return pipeline.stream().facts().samples() > 0
        ? Optional.empty()
        : Optional.of(address.text() + pipeline.decoder().whyNoReadings());
  }

  private Optional<String> refused() {
    return pipeline.decoder().refused().map(line -> address.text() + ": " + line.words());
  }

  /** Text was recognised: says as what. */
  Work.StreamBegan began(int rig, String deviceName) {
    pipeline
        .decoder()
        .recognition()
        .ifPresent(words -> around.tell().accept(address.text() + ": " + words));
    Optional<Columns> columns = pipeline.decoder().columns();
    Instant now = around.clock().instant();
    return new Work.StreamBegan(
        rig,
        recording(deviceName, columns, now),
        address.live()
            ? Optional.of(KeptColumns.evidence(address.text(), now, columns))
            : Optional.empty());
  }

  private Recording recording(String deviceName, Optional<Columns> columns, Instant now) {
    return new Recording(
        Columns.rigName(deviceName.isEmpty() ? "text:" + address.text() : deviceName, columns),
        "",
        address.text(),
        Recording.Form.TEXT,
        now,
        pipeline.stream().gain(),
        Optional.empty(),
        pipeline.stream().decimals());
  }
}
