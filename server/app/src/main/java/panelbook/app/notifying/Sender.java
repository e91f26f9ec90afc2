package panelbook.app.notifying;

import panelbook.wire.ChannelKind;

/** Sends messages of one kind of channel. It is called outside of transactions and returns in bounded time. */
interface Sender {

    /** Which kind. */
    ChannelKind kind();

    /** One attempt; whatever goes wrong is told in the answer. */
    Answer send(Outgoing message);
}
