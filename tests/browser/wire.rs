//! The protocol that Chromium offers to tools: questions with a number, answers with the same number,
//! and events in between. (Chrome DevTools Protocol, as published by its makers.)

use std::net::TcpStream;
use std::time::Duration;

use serde_json::{Value, json};
use tungstenite::{Message, WebSocket};

/// Longest wait for any single message, in seconds: long enough for a busy machine.
const PATIENCE: u64 = 60;

/// A wire to a running Chromium.
pub(crate) struct Wire {
    socket: WebSocket<TcpStream>,
    last: u64,
    /// Events that came and were not yet taken, in order.
    events: Vec<Value>,
}

impl Wire {
    /// Connects to the address that Chromium has named.
    pub(crate) fn connect(address: &str) -> Wire {
        let place = address.strip_prefix("ws://").and_then(|rest| rest.split('/').next());
        let place = place.unwrap_or_else(|| panic!("{address} is no address of a socket"));
        let stream = TcpStream::connect(place).expect("Chromium can be reached");
        stream.set_read_timeout(Some(Duration::from_secs(PATIENCE))).expect("a limit can be set");
        let (socket, _) = tungstenite::client(address, stream).expect("Chromium talks to tools");
        Wire { socket, last: 0, events: vec![] }
    }

    /// Asks something without waiting for the answer; the number of the question, 0 when the wire is cut.
    pub(crate) fn say(&mut self, session: Option<&str>, method: &str, with: &Value) -> u64 {
        self.last += 1;
        let mut question = json!({ "id": self.last, "method": method, "params": with });
        if let Some(session) = session {
            question["sessionId"] = session.into();
        }
        let sent = self.socket.send(Message::text(question.to_string()));
        if sent.is_ok() { self.last } else { 0 }
    }

    /// Asks something and waits for the answer.
    #[track_caller]
    pub(crate) fn call(&mut self, session: Option<&str>, method: &str, with: Value) -> Value {
        self.try_call(session, method, with).unwrap_or_else(|e| panic!("{method}: {e}"))
    }

    /// Asks something that may be refused.
    #[track_caller]
    pub(crate) fn try_call(
        &mut self,
        session: Option<&str>,
        method: &str,
        with: Value,
    ) -> Result<Value, String> {
        let number = self.say(session, method, &with);
        loop {
            let mut message = self.read(method);
            if message["id"] != number {
                self.events.push(message);
            } else if message["error"].is_null() {
                return Ok(message["result"].take());
            } else {
                return Err(message["error"].to_string());
            }
        }
    }

    /// Waits for an event of this name; earlier events stay to be taken, as it does itself.
    #[track_caller]
    pub(crate) fn until(&mut self, event: &str) {
        while !self.events.iter().any(|e| e["method"] == event) {
            let message = self.read(event);
            self.events.push(message);
        }
    }

    /// Takes all events that came so far.
    pub(crate) fn take(&mut self) -> Vec<Value> {
        std::mem::take(&mut self.events)
    }

    /// Reads until the other side closes the wire, or says nothing any more.
    pub(crate) fn drain(&mut self) {
        while self.socket.read().is_ok() {}
    }

    #[track_caller]
    fn read(&mut self, waited_for: &str) -> Value {
        loop {
            match self.socket.read() {
                Ok(Message::Text(text)) => {
                    return serde_json::from_str(&text).expect("the protocol is JSON");
                }
                Ok(_) => {}
                Err(e) => panic!("no answer to {waited_for} within {PATIENCE} s: {e}"),
            }
        }
    }
}
