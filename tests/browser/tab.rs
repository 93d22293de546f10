//! A tab with a page in it: looking at it, clicking, typing.

use std::path::Path;

use serde_json::{Value, json};

use crate::chromium::Chromium;

/// Longest wait for something on a page to come true, in milliseconds.
const PATIENCE: u32 = 30_000;

/// Keys that type no letter, with the number that browsers know them by.
const KEYS: [(&str, u8); 8] = [
    ("ArrowLeft", 37),
    ("ArrowRight", 39),
    ("Home", 36),
    ("End", 35),
    ("PageUp", 33),
    ("PageDown", 34),
    ("Tab", 9),
    ("Enter", 13),
];

/// A tab of a Chromium of its own.
pub(crate) struct Tab {
    chromium: Chromium,
    session: String,
    address: String,
}

impl Tab {
    /// An empty tab; none without Chromium, which is then said.
    pub(crate) fn new() -> Option<Tab> {
        let mut chromium = Chromium::start()?;
        let session = chromium.tab();
        let mut tab = Tab { chromium, session, address: String::new() };
        for domain in ["Page", "Runtime", "Log", "Network"] {
            tab.call(&format!("{domain}.enable"), json!({}));
        }
        Some(tab)
    }

    /// Opens a page from its file and waits until it is loaded. What came of earlier pages is forgotten.
    #[track_caller]
    pub(crate) fn open(&mut self, file: &Path) {
        self.chromium.wire.take();
        self.address = format!("file://{}", file.display());
        let went = self.call("Page.navigate", json!({ "url": self.address }));
        assert!(went["errorText"].is_null(), "{}: {}", self.address, went["errorText"]);
        self.chromium.wire.until("Page.loadEventFired");
    }

    #[track_caller]
    pub(crate) fn call(&mut self, method: &str, with: Value) -> Value {
        self.chromium.wire.call(Some(&self.session), method, with)
    }

    /// As [`Tab::call`], for a question that may be refused.
    pub(crate) fn try_call(&mut self, method: &str, with: Value) -> Result<Value, String> {
        self.chromium.wire.try_call(Some(&self.session), method, with)
    }

    /// The value of an expression in the page; a promise is waited for.
    #[track_caller]
    pub(crate) fn value(&mut self, expression: &str) -> Value {
        let how = json!({ "expression": expression, "returnByValue": true, "awaitPromise": true });
        let mut done = self.call("Runtime.evaluate", how);
        assert!(done["exceptionDetails"].is_null(), "{expression}: {}", done["exceptionDetails"]);
        done["result"]["value"].take()
    }

    /// The value of an expression that is a text.
    #[track_caller]
    pub(crate) fn text(&mut self, expression: &str) -> String {
        let value = self.value(expression);
        value.as_str().unwrap_or_else(|| panic!("{expression} is {value}, not a text")).to_owned()
    }

    /// The value of an expression that is a whole number.
    #[track_caller]
    pub(crate) fn number(&mut self, expression: &str) -> i64 {
        let value = self.value(expression);
        value.as_i64().unwrap_or_else(|| panic!("{expression} is {value}, not a whole number"))
    }

    /// Waits until a condition holds, looked at with every frame.
    #[track_caller]
    pub(crate) fn wait(&mut self, condition: &str) {
        let look = format!(
            "new Promise((done) => {{
                const end = Date.now() + {PATIENCE};
                const look = () => {{
                    if ({condition}) done(true);
                    else if (Date.now() > end) done(false);
                    else requestAnimationFrame(look);
                }};
                look();
            }})"
        );
        assert_eq!(self.value(&look), true, "never came true: {condition}");
    }

    /// Clicks with the mouse in the middle of what a selector finds, which must lie on top there.
    #[track_caller]
    pub(crate) fn click(&mut self, selector: &str) {
        let place = self.value(&format!(
            "(() => {{
                const found = document.querySelector({selector:?});
                if (!found) return null;
                found.scrollIntoView({{ block: 'center', behavior: 'instant' }});
                const box = found.getBoundingClientRect();
                const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
                const top = document.elementFromPoint(x, y);
                return [x, y, !!top && (found.contains(top) || top.contains(found))];
            }})()"
        ));
        assert_eq!(place[2], true, "{selector} is not there, or lies under something else");
        for (kind, held) in [("mousePressed", 1), ("mouseReleased", 0)] {
            let mouse = json!({
                "type": kind, "x": place[0], "y": place[1],
                "button": "left", "buttons": held, "clickCount": 1,
            });
            self.call("Input.dispatchMouseEvent", mouse);
        }
    }

    /// Presses a key and lets it go.
    #[track_caller]
    pub(crate) fn key(&mut self, key: &str) {
        let known = KEYS.iter().find(|(name, _)| *name == key);
        let letter = key.to_uppercase().bytes().next().expect("a key has a name");
        let number = known.map_or(letter, |(_, number)| *number);
        let text = match key {
            "Enter" => "\r",
            _ if known.is_some() => "",
            _ => key,
        };
        let mut press = json!({ "type": "keyDown", "key": key, "windowsVirtualKeyCode": number });
        if !text.is_empty() {
            press["text"] = text.into();
        }
        self.call("Input.dispatchKeyEvent", press);
        let release = json!({ "type": "keyUp", "key": key, "windowsVirtualKeyCode": number });
        self.call("Input.dispatchKeyEvent", release);
    }

    /// Makes the window so many CSS pixels wide and high.
    pub(crate) fn size(&mut self, width: u32, height: u32) {
        let how =
            json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
        self.call("Emulation.setDeviceMetricsOverride", how);
        self.wait(&format!("innerWidth === {width}"));
    }

    /// Shows the page as on `screen` or in `print`, to someone who prefers `light` or `dark`.
    pub(crate) fn media(&mut self, media: &str, scheme: &str) {
        let wish = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.call("Emulation.setEmulatedMedia", json!({ "media": media, "features": wish }));
        self.wait(&format!("matchMedia('{media} and (prefers-color-scheme: {scheme})').matches"));
    }

    /// What the page has complained of, and every address but its own that it has asked for, since it
    /// was opened.
    pub(crate) fn complaints(&mut self) -> Vec<String> {
        // What happens in the page comes before the answer to a later question.
        self.value("new Promise((done) => requestAnimationFrame(() => setTimeout(done)))");
        let events = self.chromium.wire.take();
        let asked = events.iter().filter(|e| e["method"] == "Network.requestWillBeSent");
        assert!(
            asked.count() > 0,
            "{}: not even the page itself was seen to be asked for",
            self.address
        );
        events.iter().filter_map(|event| self.complaint(event)).collect()
    }

    fn complaint(&self, event: &Value) -> Option<String> {
        let what = &event["params"];
        match event["method"].as_str()? {
            "Network.requestWillBeSent" => {
                let address = what["request"]["url"].as_str()?;
                let own = address.split('#').next() == Some(&self.address);
                (!own).then(|| format!("asks for {address}"))
            }
            "Runtime.exceptionThrown" => Some(format!("stops: {}", what["exceptionDetails"])),
            "Runtime.consoleAPICalled" => {
                let calm = ["log", "info", "debug"].iter().any(|kind| what["type"] == *kind);
                (!calm).then(|| format!("says: {}", what["args"]))
            }
            "Log.entryAdded" => {
                let entry = &what["entry"];
                let loud = ["warning", "error"].iter().any(|level| entry["level"] == *level);
                loud.then(|| format!("{}: {}", entry["level"], entry["text"]))
            }
            _ => None,
        }
    }
}
