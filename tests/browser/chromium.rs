//! One Chromium, started for one test and stopped with it.

use std::io::{BufRead, BufReader, Read};
use std::process::{Child, Command, Stdio};
use std::{env, fs, thread};

use serde_json::{Value, json};
use tempfile::TempDir;

use crate::skip;
use crate::wire::Wire;

/// Names of the program, the variable `CHROMIUM` before all.
const NAMES: [&str; 3] = ["chromium", "chromium-browser", "chromium-headless-shell"];

/// Flags without which it would show a window, keep things, or ask servers for something.
const FLAGS: [&str; 14] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-extensions",
    "--disable-sync",
    "--hide-scrollbars",
    "--remote-debugging-port=0",
];

/// A running Chromium; it ends when this goes, also when a test fails.
pub(crate) struct Chromium {
    /// The wire to it.
    pub(crate) wire: Wire,
    _running: Running,
    /// Its empty profile, which goes with it.
    _profile: TempDir,
}

impl Chromium {
    /// Starts one. Without any on this machine, says so and returns none.
    pub(crate) fn start() -> Option<Chromium> {
        let Some(program) = program() else {
            skip("no Chromium was found", "install the package chromium");
            return None;
        };
        let profile = tempfile::tempdir().expect("a temporary folder can be made");
        let child = Command::new(program)
            .args(FLAGS)
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .arg("about:blank")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .expect("Chromium can be started");
        let mut running = Running(child);
        let mut said = BufReader::new(running.0.stderr.take().expect("it is piped"));
        let address = address(&mut said);
        // Whatever else it says must go somewhere, or it would wait.
        thread::spawn(move || said.read_to_end(&mut Vec::new()));
        let address = address.unwrap_or_else(|said| panic!("Chromium does not start:\n{said}"));
        let wire = Wire::connect(&address);
        Some(Chromium { wire, _running: running, _profile: profile })
    }

    /// Opens an empty tab and returns its session.
    pub(crate) fn tab(&mut self) -> String {
        let target = self.wire.call(None, "Target.createTarget", json!({ "url": "about:blank" }));
        let how = json!({ "targetId": target["targetId"], "flatten": true });
        let attached = self.wire.call(None, "Target.attachToTarget", how);
        let Value::String(session) = &attached["sessionId"] else { panic!("{attached}") };
        session.clone()
    }
}

impl Drop for Chromium {
    fn drop(&mut self) {
        // Asked to close, it ends its helpers itself; killed, they would follow a little later.
        self.wire.say(None, "Browser.close", &json!({}));
        self.wire.drain();
    }
}

/// A process that ends when this goes.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The path of Chromium.
fn program() -> Option<String> {
    if let Ok(named) = env::var("CHROMIUM") {
        return Some(named);
    }
    let folders: Vec<_> = env::split_paths(&env::var_os("PATH")?).collect();
    let found = |name: &&&str| folders.iter().any(|f| fs::metadata(f.join(name)).is_ok());
    NAMES.iter().find(found).map(|name| (*name).to_owned())
}

/// The address at which it listens, which it says when it does; else what it said before it ended.
fn address(said: &mut impl BufRead) -> Result<String, String> {
    let mut all = String::new();
    loop {
        let start = all.len();
        match said.read_line(&mut all) {
            Ok(0) | Err(_) => return Err(all),
            Ok(_) => {}
        }
        if let Some(address) = all[start..].trim().strip_prefix("DevTools listening on ") {
            return Ok(address.to_owned());
        }
    }
}
